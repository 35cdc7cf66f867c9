/** Cycles of bursts and rests where Newton's method is misled: what goes round is driven until it settles, what never settles is a fault of the program. */
import { HEAT_LIMITS } from '@shaftwork/sim-core/drive/heat-limits';
import type { HeldDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { settleCycle } from '@shaftwork/sim-core/questions/rate/settled-cycle';
import { describe, expect, it } from 'vitest';
import { COLD, linearDrive } from './linear-drive.js';

const peaks = new Float64Array(HEAT_LIMITS.length);
const [ON, REST, RISE, TIME] = [20, 40, 200, 100];
/** A drive of one body whose cycle is carried over as `mend` says: after the rest it may change the body's temperature [K] and the propagator [1]. */
function misled(mend: (drive: HeldDrive, propagator: Float64Array) => void): ReturnType<typeof linearDrive> {
  const drive = linearDrive({ rise: RISE, time: TIME });
  const { advance } = drive;
  let throttle = 0;
  return {
    ...drive,
    hold: (asked) => {
      throttle = asked;
      drive.hold(asked);
    },
    advance: (duration, onStep, propagator) => {
      const reached = advance(duration, onStep, propagator);
      if (throttle === 0 && propagator !== undefined) mend(drive, propagator);
      return reached;
    },
  };
}
const share = Math.exp(-(ON + REST) / TIME);
/** Where the settled cycle begins and peaks above the cold. */
const top = (RISE * (1 - Math.exp(-ON / TIME))) / (1 - share);
const begins = top * Math.exp(-REST / TIME);

describe('where Newton’s method goes round', () => {
  it('cycles are driven as they come, from the twenty-sixth on, until the next step would be less than a kelvin', () => {
    // steps twice as long as they should be leap over the cycle again and again
    const drive = misled((_, propagator) => {
      propagator[0] = 1 - 0.5 * (1 - propagator[0]);
    });
    expect(settleCycle(drive, 1, ON, REST, peaks)).toBe(true);
    let driven = 0;
    while (2 * begins * share ** driven >= 1) driven++;
    expect(drive.driven).toHaveLength(2 * (25 + driven + 1));
    expect(peaks[0]).toBeCloseTo(COLD + top, 0);
  });

  it('a cycle is settled where the next step would be less than a fifth of a kelvin', () => {
    // steps half as long as they should be halve what is left
    const drive = misled((_, propagator) => {
      propagator[0] = 1 - 2 * (1 - propagator[0]);
    });
    expect(settleCycle(drive, 1, ON, REST, peaks)).toBe(true);
    let turns = 0;
    while (0.5 * begins * 0.5 ** turns >= 0.2) turns++;
    expect(drive.driven).toHaveLength(2 * (turns + 1));
  });

  it('and the cycles never settle, it is no rating', () => {
    let turn = 0;
    const drive = misled(({ state, kernel }, propagator) => {
      propagator[0] = -9;
      state[kernel.at.winding] = [200, 500, 800][turn++ % 3];
    });
    expect(() => settleCycle(drive, 0.7, ON, REST, peaks)).toThrow(
      new Error('A cycle of 20 s at 0.7 throttle and 40 s off neither settles nor runs away.'),
    );
    expect(turn).toBe(3025);
  });

  it('and two cycles follow each other in turn, they are settled, with the peaks of the hotter', () => {
    let turn = 0;
    const drive = misled(({ state, kernel }, propagator) => {
      propagator[0] = -9;
      state[kernel.at.winding] = turn++ % 2 === 0 ? 800 : 200;
    });
    // the last of them begins at 200 K and gets nowhere near the other's 800 K
    expect(settleCycle(drive, 1, ON, REST, peaks)).toBe(true);
    expect([turn, peaks[0]]).toEqual([3025, 800]);
  });

  it('and the cycles run away, there is none', () => {
    let turn = 0;
    const drive = misled(({ state, kernel }, propagator) => {
      propagator[0] = -9;
      state[kernel.at.winding] = turn++ < 30 ? (turn % 2 === 0 ? 200 : 800) : 900;
    });
    expect(settleCycle(drive, 1, ON, REST, peaks)).toBe(false);
    expect(turn).toBe(31);
  });
});

describe('there is no cycle', () => {
  it('where the next would begin hotter than any part survives, or colder than any winter', () => {
    const leap = (by: number) =>
      misled(({ state, kernel }, propagator) => {
        propagator[0] = 0;
        state[kernel.at.winding] = COLD + by;
      });
    expect(settleCycle(leap(600), 1, ON, REST, peaks)).toBe(false);
    expect(settleCycle(leap(-150), 1, ON, REST, peaks)).toBe(false);
    // just within, it is a cycle of its own
    expect(settleCycle(leap(599), 1, ON, REST, peaks)).toBe(true);
    expect(settleCycle(leap(-149), 1, ON, REST, peaks)).toBe(true);
  });
  it('where a cycle carries everything over, or leaves the laws', () => {
    const all = misled(({ state, kernel }, propagator) => {
      propagator[0] = 1;
      state[kernel.at.winding] = 350;
    });
    expect(settleCycle(all, 1, ON, REST, peaks)).toBe(false);
    const drive = linearDrive({ rise: RISE, time: TIME });
    for (const lost of [1, 2]) {
      let call = 0;
      expect(settleCycle({ ...drive, advance: () => (++call === lost ? Number.NaN : 1) }, 1, ON, REST, peaks)).toBe(false);
      expect(call).toBe(lost);
    }
  });
});

it('a peak within a step is where a straight line through its slopes is level', () => {
  const drive = linearDrive({ rise: RISE, time: TIME });
  const seen: number[] = [];
  const step = (rise: number, fall: number) => ({
    from: 10,
    to: 30,
    start: Float64Array.of(COLD),
    end: Float64Array.of(COLD + 5),
    startRate: Float64Array.of(rise),
    endRate: Float64Array.of(fall),
    at: (t: number, into: Float64Array) => {
      seen.push(t);
      into[0] = COLD + 40;
    },
  });
  const peakOf = (rise: number, fall: number): number => {
    seen.length = 0;
    const advance: HeldDrive['advance'] = (_, onStep, propagator) => {
      expect(onStep?.(step(rise, fall))).toBe(true);
      propagator?.fill(0);
      return 1;
    };
    expect(settleCycle({ ...drive, advance }, 1, ON, 0, peaks)).toBe(true);
    return peaks[0] - COLD;
  };
  expect([peakOf(3, -1), seen]).toEqual([40, [25]]);
  expect([peakOf(3, 1), seen]).toEqual([5, []]);
  expect([peakOf(-3, -1), seen]).toEqual([5, []]);
  expect([peakOf(0, -1), peakOf(3, 0)]).toEqual([5, 5]);
});
