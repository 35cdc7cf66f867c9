import { describe, expect, it } from 'vitest';
import { inverseNormal } from '../../packages/sim-core/src/numerics/inverse-normal.js';
import { seededRandom } from '../../packages/sim-core/src/numerics/seeded-random.js';
import { fitHeat, rms } from './fit-heat.js';
import { cutOf, type MeasuredRun, modelOf, readRun } from './heat-run.js';

/** A run made by hand: 250 W of loss at 1500 W of shaft power for `driven` seconds, then a stop of `stopped` seconds. */
function runOf(driven: number, stopped: number, spacing = 3): MeasuredRun {
  const count = Math.round((driven + stopped) / spacing);
  const turning = (k: number): boolean => k * spacing < driven;
  const column = (value: (k: number) => number): Float64Array => Float64Array.from({ length: count }, (_, k) => value(k));
  return {
    spacing,
    electrical: column((k) => (turning(k) ? 1870 : 120)),
    torque: column((k) => (turning(k) ? 4.3 : 0)),
    speed: column((k) => (turning(k) ? 1500 / 4.3 : 0)),
    thrust: column((k) => (turning(k) ? 110 : 0)),
    probe: column(() => 298.15),
    air: column(() => 298.15),
  };
}

describe('the fit of the heat network to a measured run', () => {
  it('finds a run again that the network made with other numbers, under noise of 0.1 K', { timeout: 60_000 }, () => {
    const run = runOf(150, 300);
    const model = modelOf(run);
    const random = seededRandom(7, 1);
    const normal = (): number => inverseNormal(random.fraction());
    const truth = model.predict(model.unknowns.map(normal));
    const nominal = model.predict([]);
    const measured = { ...run, probe: truth.map((value) => value + 0.1 * normal()) };
    const { reading } = fitHeat(measured, model, [model.unknowns.map(() => 0.3)], 12);
    expect(rms(nominal, truth, 0, truth.length)).toBeGreaterThan(2);
    expect(rms(reading, truth, 0, truth.length)).toBeLessThan(0.3);
  });

  // Kennesaw State University UAS bench, five large outrunners: conductance to the air falls five- to tenfold when the bell stops; temperatures settle in
  // 100–200 s under way, in 700–1350 s after the cut. Our rules know only the size.
  it('settles under way and after the cut as large outrunners on a bench do', () => {
    const run = runOf(6000, 9000);
    const model = modelOf(run);
    const random = seededRandom(3, 1);
    const normal = (): number => inverseNormal(random.fraction());
    const cut = cutOf(run);
    const settling = Array.from({ length: 60 }, (_, trial) => model.predict(model.unknowns.map(() => (trial === 0 ? 0 : normal())))).map(
      (reading) => {
        const air = 298.15;
        const end = reading[cut - 1] - air;
        const up = reading.findIndex((value) => value - air > (1 - Math.exp(-1)) * end) * run.spacing;
        let top = cut;
        while (reading[top + 1] > reading[top]) top++;
        let down = top;
        while (reading[down] - air > Math.exp(-1) * (reading[top] - air)) down++;
        return { up, down: (down - top) * run.spacing };
      },
    );
    const inside = (values: number[], from: number, to: number): boolean => {
      const sorted = [...values].sort((a, b) => a - b);
      return sorted[3] < to && sorted[56] > from;
    };
    expect(
      inside(
        settling.map(({ up }) => up),
        100,
        200,
      ),
    ).toBe(true);
    expect(
      inside(
        settling.map(({ down }) => down),
        700,
        1350,
      ),
    ).toBe(true);
    expect(
      inside(
        settling.map(({ up, down }) => down / up),
        5,
        10,
      ),
    ).toBe(true);
  });

  it('says what a table lacks, and finds the cut', () => {
    expect(() => readRun('t_s,rpm\n0,1\n')).toThrow(/needs a column supply_V/);
    const head = 't_s,supply_V,supply_A,rpm,torque_Nm,thrust_N,probe_degC,ambient_degC';
    expect(() => readRun(`${head}\n0,x,1,1,1,1,20,20\n`)).toThrow(/no number/);
    const run = readRun(`${head}\n0,10,5,100,1,1,20,20\n3,10,5,100,1,1,21,20\n6,10,0.1,0,0,0,22,20\n`);
    expect(cutOf(run)).toBe(2);
    expect(run.spacing).toBe(3);
    expect(run.probe[2]).toBeCloseTo(295.15, 10);
  });
});
