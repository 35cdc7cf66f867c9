/** A log of a million rows to its profile, in a process of its own: prints the time [ms] and the most memory it had resident [MB], the text's included. */
import { prepareScenario } from '../../packages/sim-core/src/run-scenario.js';

const chunks = Array.from({ length: 1000 }, (_, chunk) => {
  let text = '';
  for (let row = 0; row < 1000; row++) {
    const k = 1000 * chunk + row;
    const [throttle, speed] = [50 + 40 * Math.sin(k / 900), 5 + 3 * Math.sin(k / 1300)];
    text += `${(k * 0.02).toFixed(2)},${throttle.toFixed(2)},${speed.toFixed(3)}\n`;
  }
  return Buffer.from(text);
});
const log = `time [s],throttle [%],vehicle speed [m/s]\n${Buffer.concat(chunks).toString('latin1')}`;
chunks.length = 0;
const scenario = `title: A log
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, diameter: 9 in, pitch: 4.5 in }
profile: { log: run.csv, impose_speed: no }
candidates:
  - name: A
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`;
const from = performance.now();
const made = prepareScenario(
  new Map([
    ['a.yaml', scenario],
    ['run.csv', log],
  ]),
  'a.yaml',
);
const time = performance.now() - from;
if (made.kind !== 'ready' || made.prepared.scenario.log?.rows !== 1e6) throw new Error('the log was not read');
process.stdout.write(JSON.stringify({ time, memory: process.resourceUsage().maxRSS / 1024 }));
