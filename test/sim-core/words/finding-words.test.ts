import type { Finding } from '@shaftwork/sim-core';
import { findingLines } from '@shaftwork/sim-core/words/finding-words';
import { expect, test } from 'vitest';
import { sampleResult } from '../../report/sample-result.js';

const sample = sampleResult();
const told = (...findings: Finding[]): string[] => findingLines({ ...sample, findings }).map(({ sentence }) => sentence);
const plain = (text: string | undefined): string => (text ?? '').replaceAll('\u202f', ' ');
const of = { candidate: 'Wide' } as const;

test.each<[Finding, string]>([
  [
    { ...of, kind: 'no-operating-point', time: 65, step: 2, why: 'the load is too heavy.' },
    'Finds no operating point in step 3 at 1:05: the load is too heavy.',
  ],
  [
    { ...of, kind: 'magnets-weakened', time: 70, value: 60, bound: 50, temperature: 373.15 },
    'Weakens its magnets for good at 1:10: 60.0\u202fA with the magnets at 100\u202f°C, which bear 50.0\u202fA.',
  ],
  [
    { ...of, kind: 'blade-area-small', time: 70, value: 0.6, bound: 0.68, thrust: 56, lasting: 41 },
    'May cavitate for 0:41 in all: 56.0\u202fN of thrust at 1:10 want 0.68 of the disc as blade area, the screw has 0.60 (Keller’s rule for ships: a caution).',
  ],
  [
    { ...of, kind: 'thermal-runaway', value: 60, bound: 50 },
    'Has no thermal equilibrium at full throttle, which begins at 60.0\u202fA and grows as the magnets weaken; a torque that stays the same has none above 50.0\u202fA. Bursts are another matter.',
  ],
  [
    { ...of, kind: 'several-operating-points', count: 3 },
    'Motor and load meet at 3 speeds; the run settles at the one it reaches from the side it comes from.',
  ],
  [{ ...of, kind: 'motor-stalled', step: 0, label: 'out', time: 2 }, 'The motor stands still under current in “out” at 0:02.'],
  [
    { ...of, kind: 'current-limited', step: 0, by: 'motor', bound: 60, throttle: 0.834 },
    'The controller limits the motor current to 60.0\u202fA in step 1: 83\u202f% throttle.',
  ],
  [
    { ...of, kind: 'current-limited', step: 0, by: 'heat', bound: 4.8, throttle: 0.21 },
    'The hot controller limits the motor current to 4.80\u202fA in step 1: 21\u202f% throttle.',
  ],
  [
    { ...of, kind: 'burnt-out', body: 'winding', value: 593.15, time: 60 },
    'Burns out at 1:00: the winding at 320\u202f°C; the run ends there.',
  ],
  [
    { ...of, kind: 'cut-off-reached', time: 500, bound: 3.3 },
    'The cells reach the cut-off of 3.30\u202fV each at 8:20; the run ends there.',
  ],
  [{ ...of, kind: 'battery-empty', time: 500 }, 'The battery is empty at 8:20.'],
  [
    { ...of, kind: 'outside-propeller-table', value: 0.91, bound: 0.85 },
    'Leaves the propeller’s table: 0.910 where the table ends at 0.850.',
  ],
  [
    { ...of, kind: 'outside-propeller-table', value: 0.3, bound: 0 },
    'Its propeller was measured at rest alone: at speed thrust and power follow the usual fall, and where thrust ends is known to a factor of 1.5. A point with vehicle_speed settles it.',
  ],
  [
    { ...of, kind: 'outside-drag-table', value: 6.4, bound: 6 },
    'Leaves the drag table: 6.40\u202fm/s where the table ends at 6.00\u202fm/s.',
  ],
  [
    { ...of, kind: 'does-not-fit', what: 'length', value: 0.086, bound: 0.08 },
    'Does not fit: length 86.0\u202fmm where 80.0\u202fmm are allowed.',
  ],
  [
    { ...of, kind: 'braked-beyond-drive', step: 4 },
    'The vehicle is slower than what drives it alone would leave it in step 5: the drive does not brake that much here.',
  ],
  [
    { ...of, kind: 'wheels-spin', step: 0, label: 'launch', time: 0, bound: 22.96 },
    'The wheels spin or skid in “launch” at 0:00: the ground takes no more than 23.0\u202fN.',
  ],
  [
    { ...of, kind: 'below-stall-speed', step: 1, label: 'glide', time: 25, value: 6, bound: 7.4 },
    'Flies at 6.00\u202fm/s in “glide” at 0:25, too slow for the wing, which carries the weight from 7.40\u202fm/s on. Write the vehicle_speed that is flown beside the throttle.',
  ],
  [
    { ...of, kind: 'steeper-than-vertical', step: 0, label: 'climb', time: 0, value: 31, bound: 20.6 },
    'Keeps its speed only straight up in “climb” at 0:00, and not even so: thrust less drag is 31.0\u202fN, the weight 20.6\u202fN.',
  ],
  [
    { ...of, kind: 'step-not-held', step: 1, label: 'survey line', wanted: 2.2, reached: 2.1 },
    'Does not hold the vehicle speed asked for in “survey line”: 2.10\u202fm/s instead of 2.20\u202fm/s.',
  ],
  [
    { ...of, kind: 'step-not-held', step: 1, label: 'survey line', time: 2, until: 40, wanted: 2.2, reached: 2.1 },
    'Does not hold the vehicle speed asked for in “survey line”, from 0:02 to 0:40: at last 2.10\u202fm/s instead of 2.20\u202fm/s.',
  ],
])('%j', (finding, sentence) => {
  expect(told(finding)).toEqual([sentence]);
});

test('a limit that is passed where the run ends is told without a time beyond it', () => {
  const [small] = sample.candidates.slice(2);
  const cut = { ...small!, limits: small!.limits.map((limit) => ({ ...limit, passed: { at: limit.passed?.at ?? 0, lasting: 8.2e-10 } })) };
  const [line] = findingLines({ ...sample, candidates: [cut], findings: [small!.findings[0]!] });
  expect(line!.sentence).not.toMatch(/past it|e-10/);
});

test('a limit of battery current is that of one drive, where the pack feeds four', () => {
  const [one] = sample.candidates;
  const limited: Finding = { candidate: one!.name, kind: 'current-limited', step: 0, by: 'battery', bound: 10, throttle: 0.82 };
  const { channels } = one!.moment;
  const four = { ...one!, moment: { ...one!.moment, channels: { ...channels, batteryPower: 4 * channels.batteryPower } } };
  const [words] = findingLines({ ...sample, candidates: [four], findings: [limited] });
  expect(words!.sentence).toContain('limits the battery current of each of the 4 drives to 10.0\u202fA');
  const [motor] = findingLines({ ...sample, candidates: [four], findings: [{ ...limited, by: 'motor' }] });
  expect(motor.sentence).toContain('limits the motor current to 10.0\u202fA');
  expect(told(limited)[0]).toContain('limits the battery current to 10.0\u202fA');
});

test('a limit is told with its worst value from the candidate', () => {
  const small = sample.candidates[2]!;
  const limit = small.limits.find(({ id }) => id === 'windingTemperature')!;
  const [sentence] = told(small.findings[0]!);
  expect(sentence).toMatch(/^Passes the limit of 130\u202f°C \(winding\) at \d+:\d\d; worst 1\d\d\u202f°C at \d+:\d\d\.$/);
  expect(limit.passed).toBeDefined();
});

test('what recurs in steps of one name is told once', () => {
  const held = (step: number): Finding => ({ ...of, kind: 'step-not-held', step, label: 'survey line', wanted: 2.2, reached: 2.1 });
  expect(told(held(1), held(3), held(5))).toEqual([expect.stringMatching(/The same two times more\.$/)]);
  expect(told(held(1), { ...held(3), candidate: 'Long' })).toHaveLength(2);
});

test('what recurs in steps without a name is told once for each thing that they hold', () => {
  const [step] = sample.scenario.steps;
  const holds = ['vehicleSpeed', 'thrust', 'vehicleSpeed', 'batteryPower'] as const;
  const findings: Finding[] = holds.map((_, k) => ({ ...of, kind: 'step-not-held', step: k, wanted: 20, reached: 15 }));
  const scenario = { ...sample.scenario, steps: holds.map((hold) => ({ ...step, hold })) };
  const lines = findingLines({ ...sample, scenario, findings }).map(({ sentence }) => plain(sentence));
  expect(lines).toEqual([
    'Does not hold the vehicle speed asked for in step 1: 15.0 m/s instead of 20.0 m/s. The same once more.',
    'Does not hold the thrust asked for in step 2: 15.0 N instead of 20.0 N.',
    'Does not hold the battery power asked for in step 4: 15.0 W instead of 20.0 W.',
  ]);
});

test('a speed on its way to rest is told as none', () => {
  const finding: Finding = { ...of, kind: 'step-not-held', step: 1, label: 'slope', wanted: 12, reached: -1.31e-58 };
  expect(plain(told(finding)[0] ?? '')).toContain(': 0 m/s instead of 12.0 m/s');
});

test('what is held is named by the step, whatever it is; what is given up by the finding', () => {
  const lost = (hold: (typeof sample.scenario.steps)[number]['hold'], more: object = {}): string => {
    const [step] = sample.scenario.steps;
    const scenario = { ...sample.scenario, steps: [{ ...step, hold }] };
    const finding: Finding = { ...of, kind: 'step-not-held', step: 0, time: 3, wanted: 20, reached: 15, ...more };
    return plain(findingLines({ ...sample, scenario, findings: [finding] })[0].sentence);
  };
  expect(lost('thrust')).toBe('Does not hold the thrust asked for in step 1 at 0:03: 15.0 N instead of 20.0 N.');
  expect(lost('batteryPower')).toContain('the battery power asked for');
  expect(lost('batteryCurrent')).toContain('the battery current asked for in step 1 at 0:03: 15.0 A');
  expect(lost('motorCurrent')).toContain('the motor current');
  expect(lost('shaftSpeed')).toContain('the motor speed');
  expect(lost('vehicleSpeed', { what: 'climb' })).toContain('the climb rate asked for in step 1 at 0:03: 15.0 m/s');
  // a moment is no span
  expect(lost('thrust', { until: 3 })).toContain(' at 0:03: 15.0');
  expect(lost('thrust', { until: 9 })).toContain(', from 0:03 to 0:09: at last 15.0');
});

test('a limit is told with how long it was passed, and a winding beyond any enamel as such', () => {
  const [first] = sample.candidates;
  const limit = first.limits.find(({ id }) => id === 'windingTemperature');
  if (limit === undefined) throw new Error('a limit');
  const passes = (more: object): string => {
    const candidate = {
      ...first,
      limits: [
        ...first.limits.filter(({ id }) => id !== 'windingTemperature'),
        { ...limit, bound: 403.15, worst: 450, worstTime: 60, ...more },
      ],
    };
    const findings: Finding[] = [
      { candidate: first.name, kind: 'limit-passed', limit: 'windingTemperature', time: 7, value: 450, bound: 403.15 },
    ];
    return plain(findingLines({ ...sample, candidates: [candidate], findings })[0].sentence);
  };
  expect(passes({ passed: { at: 5, lasting: 4.26 } })).toBe(
    `Passes the limit of 130 °C (${limit.words}) at 0:05; worst 177 °C at 1:00, past it for 4.3 s in all.`,
  );
  expect(passes({ passed: { at: 5, lasting: 75 } })).toContain(', past it for 1:15 in all.');
  expect(passes({ passed: { at: 5, lasting: 10 } })).toContain(', past it for 0:10 in all.');
  expect(passes({ passed: { at: 5, lasting: 1e-4 } })).toMatch(/worst 177 °C at 1:00\.$/);
  expect(passes({ passed: { at: 5 } })).toMatch(/at 0:05; worst 177 °C at 1:00\.$/);
  expect(passes({ worst: 573.1 })).toContain('; no winding survives that.');
  expect(passes({ worst: 572.9 })).not.toContain('survives');
  const unknown: Finding = { ...of, kind: 'limit-passed', limit: 'inputPower', time: 61, value: 9, bound: 8 };
  expect(plain(findingLines({ ...sample, candidates: [], findings: [unknown] })[0].sentence)).toBe('Passes a limit at 1:01.');
});

test('what recurs is told with its number, once as once', () => {
  const stalled = (step: number, label?: string): Finding => ({
    ...of,
    kind: 'motor-stalled',
    step,
    ...(label === undefined ? {} : { label }),
  });
  expect(told(stalled(1, 'out'), stalled(2, 'out'))).toEqual([expect.stringMatching(/The same once more\.$/)]);
  expect(told(stalled(1, 'out'), stalled(2, 'back'), stalled(3, 'out'), stalled(4, 'out'))).toEqual([
    expect.stringMatching(/in “out”\. The same two times more\.$/),
    expect.stringMatching(/in “back”\.$/),
  ]);
  const limit = (id: 'motorCurrent' | 'inputPower'): Finding => ({ ...of, kind: 'limit-passed', limit: id, value: 2, bound: 1 });
  expect(told(limit('motorCurrent'), limit('inputPower'))).toHaveLength(2);
  const side = (what: 'mass' | 'length'): Finding => ({ ...of, kind: 'does-not-fit', what, value: 0.2, bound: 0.1 });
  expect(told(side('mass'), side('length')).map(plain)).toEqual([
    'Does not fit: mass 200 g where 100 g are allowed.',
    'Does not fit: length 200 mm where 100 mm are allowed.',
  ]);
});

test('what brakes, overcharges, overruns and points down is told so', () => {
  expect(told({ ...of, kind: 'pack-overcharged', value: 1.013, bound: 1, time: 9 }).map(plain)).toEqual([
    'Charges the pack to 101 % at 0:09: lithium cells do not survive that.',
  ]);
  expect(told({ ...of, kind: 'motor-overrun', step: 0, time: 9, value: 14, bound: 12 }).map(plain)[0]).toContain(
    'Is turned so fast in step 1 at 0:09 that the motor’s own voltage, 14.0 V, passes the pack’s 12.0 V:',
  );
  expect(told({ ...of, kind: 'steeper-than-vertical', step: 0, value: -31, bound: 20.6 })[0]).toContain('straight down in step 1');
  expect(told({ ...of, kind: 'outside-propeller-table', bound: 0.85, time: 4 })[0]).toContain(
    'Leaves the propeller’s table at 0:04: it all but stands still in the stream, where the table ends at 0.850.',
  );
});
