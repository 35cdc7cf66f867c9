import { prepareScenario, runScenario } from '@shaftwork/sim-core';
import { formatQuantity } from '@shaftwork/sim-core/quantities';

const made = prepareScenario(`
title: Will this motor stay cool?
battery: { chemistry: lithium-polymer, cells: { series: 3 }, capacity: 2.2 Ah }
propeller: { kind: blade-element, family: thin, diameter: 9 in, pitch: 4.5 in }
profile: [{ for: 3 min, throttle: 80 % }]
candidates:
  - name: Small
    motor: { layout: outrunner, kv: 920 rpm/V, resistance: 96 mohm, no_load: { current: 0.9 A, voltage: 10 V }, mass: 66 g, can: { diameter: 27 mm, length: 32 mm } }
`);
if (made.kind !== 'ready') throw new Error(JSON.stringify(made, null, 2));
for (const { name, headline, feasible } of runScenario(made.prepared).candidates)
  console.log(name, feasible, formatQuantity(headline.peakWindingTemperature.nominal, 'temperature', { unit: '°C', decimals: 1 }));
