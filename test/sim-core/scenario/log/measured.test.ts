import { readScenario } from '@shaftwork/sim-core/scenario';
import { describe, expect, it } from 'vitest';
import { changed, problemsOf, SMALLEST, scenarioOf } from '../smallest-scenario.js';

const LOG = 'logs/run.csv';
const withMeasured = (more = '', text = SMALLEST) => `${text}measured: { log: ${LOG}${more} }\n`;
const csv = (...lines: readonly string[]) => `${lines.join('\n')}\n`;
const read = (text: string, more = '') => {
  const { measured } = scenarioOf(withMeasured(more), { [LOG]: text });
  if (measured === undefined) throw new Error('nothing measured');
  return measured;
};
const column = (text: string, id: string, more = ''): number[] => [...(read(text, more).columns.get(id as 'voltage') ?? [])];
const wrong = (text: string, more = '') => JSON.stringify(problemsOf(withMeasured(more), { [LOG]: text }));

describe('a log that the run is compared with', () => {
  it('is asked for like a part file, and may come from outside the scenario', () => {
    expect(readScenario(new Map([['boat.yaml', withMeasured()]]), 'boat.yaml')).toEqual({ kind: 'needs', needs: [LOG] });
    const outside = csv('time [s],voltage [V]', '0,11', '1,10');
    const reading = readScenario(
      new Map([
        ['boat.yaml', SMALLEST],
        ['../elsewhere.csv', outside],
      ]),
      'boat.yaml',
      '../elsewhere.csv',
    );
    expect(reading).toMatchObject({ kind: 'read', scenario: { measured: { file: '../elsewhere.csv', rows: 2 } } });
  });

  // 0 °C = 32 °F = 273.15 K (definition of the scales, SI Brochure 9th ed., 2.3.1); 1 gf = 9.80665 mN, 1 ozf = 0.2780139 N (exact by standard gravity and the pound of 1959)
  it.each([
    ['can temperature [°C]', 'can_temperature', 50, 323.15],
    ['can temperature [°F]', 'can_temperature', 122, 323.15],
    ['can temperature [K]', 'can_temperature', 323.15, 323.15],
    ['can temperature [0.01 °C]', 'can_temperature', 5000, 323.15],
    ['can temperature [0.1 K]', 'can_temperature', 3231.5, 323.15],
    ['thrust [gf]', 'thrust', 1000, 9.80665],
    ['thrust [ozf]', 'thrust', 10, 2.780139],
    ['voltage [mV]', 'voltage', 11100, 11.1],
    ['voltage [0.1 V]', 'voltage', 111, 11.1],
    ['shaft speed [rpm]', 'shaft_speed', 9000, (9000 * 2 * Math.PI) / 60],
    ['charge used [mAh]', 'charge_used', 1000, 3600],
    ['vehicle speed [km/h]', 'vehicle_speed', 36, 10],
    ['motor current [0.866 A]', 'motor_current', 20, 17.32],
  ] as const)('reads %s', (head, id, written, si) => {
    expect(column(csv(`time [s],${head}`, `0,${written}`, `1,${written}`), id)[1]).toBeCloseTo(si, 5);
  });

  it('takes no number that cannot be: it is left out, or a fault of a column that was asked for', () => {
    const text = csv('time [s],voltage [V],can temperature [°C]', '0,11,20', '1,1e308,-280', '2,10,21');
    const { columns, taken } = read(text);
    expect([...(columns.get('voltage') ?? [])]).toEqual([11, Number.NaN, 10]);
    expect(columns.get('can_temperature')?.[1]).toBeNaN();
    expect(taken.filter((words) => /^one cell of “.*” left out, no numbers or none that can be$/.test(words))).toHaveLength(2);
    const asked = wrong(text, ', columns: { voltage: voltage, can_temperature: can temperature }');
    expect(asked).toMatch(/"line":3,"column":3.*a voltage in V.*1e308.*too large/);
    expect(asked).toMatch(/"line":3,"column":9.*a temperature in °C.*-280.*below absolute zero/);
    expect(wrong(csv('time [s],voltage [V]', '0,11', '1e300,10'))).toMatch(/"line":3,"column":1.*a time in s.*too large/);
  });

  it('leaves out what no sensor gave, and says so', () => {
    const { columns, taken } = read(
      csv(
        'time [s];can temperature [°C];end temperature [°C];voltage [V];shaft speed [rpm]',
        '0;41,2;0;0;0',
        '1;0,0;0;11,9;9000',
        '2;43,0;0;11,8;0',
      ),
    );
    expect([...columns.keys()]).toEqual(['voltage', 'shaft_speed', 'can_temperature']);
    expect([...(columns.get('can_temperature') ?? [])].map((each) => each.toFixed(2))).toEqual(['314.35', 'NaN', '316.15']);
    expect([...(columns.get('shaft_speed') ?? [])][0]).toBe(0);
    expect(taken).toEqual([
      'a comma taken for the mark before decimals',
      '0 in 1 of 3 rows of “voltage [V]” taken for no value',
      '0 in 1 of 3 rows of “can temperature [°C]” taken for no value',
      '“end temperature [°C]” left out: it is 0 throughout, as without a sensor',
    ]);
  });
  it('keeps a temperature that passes through zero', () => {
    expect(column(csv('time [s],cell temperature [°C]', '0,-2', '1,0', '2,1'), 'cell_temperature').every(Number.isFinite)).toBe(true);
  });
  it('leaves out a column that it cannot understand, and asks for one that was named', () => {
    const file = csv('time [s],voltage [V],thrust [kg],battery current [A]', '0,11,1,5', '1,11,1,x9');
    const { columns, taken } = read(file);
    expect([...columns.keys()]).toEqual(['voltage', 'battery_current']);
    expect(taken.join('; ')).toMatch(/“thrust \[kg\]” left out.*one cell of “battery current \[A\]” left out/);
    expect(wrong(file, ', columns: { thrust: thrust }')).toMatch(/a force in grams or ounces is written gf/);
    expect(wrong(file, ', columns: { can_temperature: Temp }')).toMatch(/a column “Temp”/);
  });
  it('asks for something to compare', () => {
    expect(wrong(csv('time [s],note', '0,a', '1,b'))).toMatch(/a column that can be compared/);
    expect(JSON.stringify(problemsOf(`${SMALLEST}measured: { candidate: A }\n`, {}))).toMatch(/give one with --measured/);
  });

  it('takes the first row for the beginning of the run unless told', () => {
    const file = csv('time [s],voltage [V]', '7,11', '8,11', '9,11');
    expect(read(file).begins).toEqual({ by: 'first-row', at: 7 });
    expect(read(file, ', begins: 8 s').begins).toEqual({ by: 'given', at: 8 });
    expect(read(file, ', align: voltage').begins).toEqual({ by: 'column', column: 'voltage' });
    expect(wrong(file, ', align: throttle')).toMatch(/a column throttle to align/);
    expect(wrong(file, ', align: voltage, begins: 8 s')).toMatch(/begins or align/);
    expect(wrong(file, ', candidate: Nobody')).toMatch(/unknown-choice/);
    expect(read(file, ', from: 8 s').rows).toBe(2);
  });

  it('sets a current sensor right by the charge that was put back', () => {
    // 10 A for 360 s are 1000 mA·h; 1250 were put back
    const file = csv(
      'time [s],battery current [A],charge used [mAh],motor current [A]',
      ...Array.from({ length: 121 }, (_, k) => `${3 * k},10,${(1000 * k) / 120},20`),
    );
    const more = ', charge_put_back: 1250 mAh';
    expect(column(file, 'battery_current', more)[5]).toBeCloseTo(12.5, 9);
    expect(column(file, 'charge_used', more).at(-1)).toBeCloseTo(4500, 6);
    expect(column(file, 'motor_current', more)[5]).toBe(20);
    expect(read(file, more).taken.join()).toMatch(/times 1\.250: the current sums to 1000 mA·h, 1250 mA·h were put back/);
    expect(wrong(file, ', charge_put_back: 12.5 A·h')).toMatch(/about the charge that the log sums to, 1000 mA·h/);
    expect(wrong(csv('time [s],voltage [V]', '0,11', '1,11'), more)).toMatch(/a column of the battery current/);
    expect(wrong(csv('time [s],battery current [A]', '0,10', '30,10', '360,10'), more)).toMatch(/without gaps/);
  });

  it('keeps what a driven log has besides, and only that', () => {
    const driven = changed('profile: [{ for: 3 min, throttle: 80 % }]', `profile: { log: ${LOG}, hold: throttle, from: 1 s }`, SMALLEST);
    const text = csv('time [s],throttle [%],battery current [A],voltage [V],temp', '0,20,-1,0,30', '1,30,5,11,30', '2,40,6,10,31');
    const { measured, log } = scenarioOf(driven, { [LOG]: text });
    expect(measured).toMatchObject({ driven: true, begins: { by: 'profile', at: 1 }, rows: 2 });
    expect([...(measured?.columns.keys() ?? [])]).toEqual(['voltage', 'battery_current']);
    expect(log).toMatchObject({ rows: 2 });
    const alone = scenarioOf(driven, { [LOG]: csv('time [s],throttle [%]', '0,20', '1,30', '2,40') });
    expect(alone).not.toHaveProperty('measured');
    const named = scenarioOf(`${driven}measured: { candidate: 27-32 }\n`, { [LOG]: text });
    expect(named.measured).toMatchObject({ driven: true, candidate: '27-32' });
  });

  it('scales a driven current by the charge put back too', () => {
    const driven = changed('profile: [{ for: 3 min, throttle: 80 % }]', `profile: { log: ${LOG}, charge_put_back: 50 mAh }`, SMALLEST);
    const { profile } = scenarioOf(driven, {
      [LOG]: csv('time [s],battery current [A]', ...Array.from({ length: 5 }, (_, k) => `${3.6 * k},10`)),
    });
    expect(profile[0]?.value.from).toBeCloseTo(12.5, 9);
  });

  it('keeps a few thousand rows of a million', () => {
    const rows = Array.from({ length: 20_000 }, (_, k) => `${k / 100},${10 + (k % 3)}`);
    const { rows: count, time, taken } = read(csv('time [s],voltage [V]', ...rows));
    expect(count).toBe(20_000);
    expect(time.length).toBe(5000);
    expect(taken.join()).toMatch(/every 4th of 20000 rows/);
  });
});
