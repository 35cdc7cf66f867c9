/** What other studies add to a Result, by rough formulas, so that their sections of the report are drawn and read in tests. */
import {
  type AfterStopResult,
  type CandidateResult,
  type RatedPoint,
  type RatingResult,
  type RunResult,
  type ShapePoint,
  type ShapeResult,
  STOP_BODIES,
  type StopBody,
} from '@shaftwork/sim-core';
import { ZERO_CELSIUS } from '@shaftwork/sim-core/quantities';

const AIR = ZERO_CELSIUS + 24;

function afterStop({ headline, trace }: CandidateResult): AfterStopResult {
  const winding = headline.peakWindingTemperature.nominal;
  const can = headline.peakCanTemperature.nominal;
  const mean = can + (winding - can) * 0.3;
  const at = (body: StopBody, after: number): number => {
    const hot = (winding - mean) * Math.exp(-after / 40);
    const cool = AIR + (mean - AIR) * Math.exp(-after / 900);
    if (body === 'winding' || body === 'stator') return cool + hot;
    if (body === 'controller' || body === 'cells') return AIR + 12 * Math.exp(-after / 300);
    return cool - (mean - can) * Math.exp(-after / 40);
  };
  const reading = (after: number) => ({ after, ...Object.fromEntries(STOP_BODIES.map((body) => [body, at(body, after)])) });
  const times = Array.from({ length: 121 }, (_, index) => index * 5);
  const latest = (body: StopBody) =>
    times.map((after) => ({ value: at(body, after), after })).reduce((best, one) => (one.value > best.value ? one : best));
  return {
    stoppedAt: trace.time.at(-1) ?? 0,
    readings: [0, 30, 60, 120, 300].map(reading) as unknown as AfterStopResult['readings'],
    later: Object.fromEntries(STOP_BODIES.map((body) => [body, latest(body)])) as AfterStopResult['later'],
    hiddenPeak: { value: winding, time: trace.time.at(-1) ?? 0 },
    thermometers: {
      'on-can': { reading: times.map((after) => at('can', after)), at60: { winding: AIR + 50 } },
      'beside-coils': { reading: times.map((after) => AIR + 0.36 * (at('stator', after) - AIR)), at60: { winding: AIR + 100 } },
      'in-slot': { reading: times.map((after) => at('winding', after)), at60: { winding: AIR + 38 } },
    },
    trace: {
      after: times,
      ...Object.fromEntries(STOP_BODIES.map((body) => [body, times.map((after) => at(body, after))])),
    } as unknown as AfterStopResult['trace'],
  };
}

function rating({ headline, torqueSpeed }: CandidateResult): RatingResult {
  const most = headline.peakMotorCurrent.nominal;
  const forever = most * 0.7;
  const temperatures = {
    windingTemperature: AIR + 90,
    magnetTemperature: AIR + 50,
    controllerTemperature: AIR + 30,
    cellTemperature: AIR + 10,
  };
  const point: RatedPoint = {
    throttle: 0.8,
    motorCurrent: forever,
    batteryCurrent: forever * 0.8,
    inputPower: forever * 12,
    shaftPower: forever * 10,
    shaftSpeed: 700,
    motorTorque: 0.2,
    vehicleSpeed: 3,
    temperatures,
  };
  const allowed = (share: number) =>
    Array.from({ length: 24 }, (_, index) => {
      const motorCurrent = most * (0.5 + index * 0.06);
      const heat = (motorCurrent / forever) ** 2;
      const time = heat > 1 ? -300 * share * Math.log(1 - 1 / heat) : undefined;
      return {
        throttle: index / 24,
        motorCurrent,
        inputPower: motorCurrent * 12,
        shaftPower: motorCurrent * 10,
        ...(time === undefined ? { kind: 'for-ever' as const } : { kind: 'until' as const, time, binding: 'windingTemperature' as const }),
      };
    });
  const settled = { kind: 'settled', temperatures, motorCurrent: most, timeToLimit: {} } as const;
  return {
    charge: 0.8,
    continuous: { kind: 'limited', binding: 'windingTemperature', point },
    motorAlone: { kind: 'limited', binding: 'windingTemperature', point },
    shortTime: { fromCold: allowed(1), fromWarm: allowed(0.7), warm: temperatures, longest: 3600 },
    intermittent: { cycle: 60, duties: [] },
    bursts: {
      throttle: 1,
      motorCurrent: most,
      on: [],
      rest: [],
      binding: 'windingTemperature',
      limit: AIR + 106,
      settled: [],
      leastRest: [],
    },
    continuousTorque: {
      vehicleSpeed: 3,
      shaftSpeed: torqueSpeed.speed,
      torque: torqueSpeed.speed.map((speed) => 0.3 - speed * 1e-5),
      current: torqueSpeed.speed.map(() => forever),
      binding: torqueSpeed.speed.map(() => 'windingTemperature' as const),
    },
    fullThrottle: settled,
    stall: { ...settled, kind: 'runaway' },
    runaway: { shaftSpeed: 800, torque: 1, current: 90 },
  };
}

function shape({ candidates }: RunResult): ShapeResult {
  const point = (ratio: number): ShapePoint => ({
    ratio,
    diameter: 0.036 * ratio ** (1 / 3),
    length: 0.036 * ratio ** (-2 / 3),
    stackLength: 0.02,
    mass: 0.236,
    sideArea: 0.005,
    endArea: 0.002,
    resistance: 0.07,
    noLoadCurrent: 0.7,
    motorConstant: 0.05,
    shearStress: 5000,
    rotorSurfaceSpeed: 20,
    peakWindingTemperature: AIR + 60 + 40 * (Math.log(ratio) - Math.log(0.5)) ** 2,
    peakCanTemperature: AIR + 15,
    peakMotorCurrent: 28,
    meetsLimits: true,
    fits: true,
  });
  return {
    schema: 'shaftwork.reshape/1',
    reference: candidates[0]!.name,
    objective: 'coolest',
    family: [1.6, 1.2, 0.9, 0.7, 0.5, 0.4, 0.3].map(point),
    real: candidates.map(({ name }, index) => ({ ...point(0.4 + 0.25 * index), name })),
    drivers: [],
    laws: ['copper by volume', 'iron by volume'],
    sentences: ['At equal mass the coolest shape is half as wide as long.', 'Beyond it the end turns take the copper.'],
  };
}

export function withStudies(result: RunResult): RunResult {
  const candidates = result.candidates.map((candidate) => ({ ...candidate, afterStop: afterStop(candidate), rating: rating(candidate) }));
  return { ...result, candidates, shape: shape(result) };
}
