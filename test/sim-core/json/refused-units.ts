/** Never run: each line is what the compiler refuses, and it refuses a needless `@ts-expect-error` too. */
import { each, inUnits } from '@shaftwork/sim-core/json/in-units';
import type { Si } from '@shaftwork/sim-core/quantities';

export function refused(): number {
  // @ts-expect-error a temperature is no time
  inUnits({ hot: 300 as Si<'temperature'> }, { hot: 'time' });
  // @ts-expect-error a number is forgotten
  inUnits({ hot: 300 as Si<'temperature'>, long: 3 as Si<'time'> }, { hot: 'temperature' });
  // @ts-expect-error what measures something is not plain
  inUnits({ hot: 300 as Si<'temperature'> }, { hot: 'plain' });
  // @ts-expect-error a plain number has no unit
  inUnits({ count: 3 }, { count: 'time' });
  // @ts-expect-error a record of several measures has no one unit
  inUnits({ both: { hot: 300 as Si<'temperature'>, long: 3 as Si<'time'> } }, { both: each('time') });
  // @ts-expect-error a number within a list of records within is forgotten
  inUnits({ list: [{ deep: { hot: 300 as Si<'temperature'> } }] }, {});
  const time: Si<'time'> = 3;
  // @ts-expect-error a time is not taken for a temperature
  const hot: Si<'temperature'> = time;
  return hot;
}
