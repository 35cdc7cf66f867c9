import { driveFromNumbers, simulate } from '@shaftwork/sim-core/drive';

const made = driveFromNumbers({
  ambient: { air: 293.15 },
  battery: { cells: { series: 3 }, capacity: 7920 },
  propeller: { kind: 'blade-element', family: 'thin', diameter: 0.2286, pitch: 0.1143 },
  motor: {
    layout: 'outrunner',
    kv: 96.3,
    resistance: 0.096,
    noLoad: [{ current: 0.9, voltage: 10 }],
    mass: 0.066,
    can: { diameter: 0.027, length: 0.032 },
  },
});
if (made.kind !== 'ready') throw new Error(JSON.stringify(made.problems, null, 2));
const { highest } = simulate(made.system, [{ duration: 180, hold: 'throttle', value: { from: 0.8, to: 0.8 } }]);
console.log(`winding ${highest.windingTemperature.value.toFixed(1)} K, ${made.assumptions.length} numbers assumed`);
