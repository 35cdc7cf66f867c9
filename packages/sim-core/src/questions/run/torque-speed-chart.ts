/** Torque over speed at the motor's shaft, for a chart. @module */

import type { DriveSystem } from '../../drive/drive-system.js';
import type { Kernel } from '../../kernel/kernel.js';
import type { TorqueSpeedChart } from '../../results/run-result.js';

/** Spans of the lines, which bend: inductance takes the more voltage the faster the shaft turns. */
const POINTS = 120;

/** How often the full-throttle line crosses the load on the chart. */
export function crossingsOf({ lines, load }: TorqueSpeedChart): number {
  const full = lines.at(-1)?.torque ?? [];
  let count = 0;
  for (let k = 1; k < load.length; k++) {
    const [before, after] = [full[k - 1] - load[k - 1], full[k] - load[k]];
    if (before > 0 !== after > 0) count++;
  }
  return count;
}

/** Torque lines at several throttles, the load, and the crossings, with temperatures, pack and vehicle speed of state `y`. */
export function torqueSpeedChart(kernel: Kernel, system: DriveSystem, y: Float64Array, time: number, present: number): TorqueSpeedChart {
  const driven = Math.round(present * 100) / 100;
  // on wheels the vehicle holds the speed: only what was driven is a point of the drive, and it lies off the load while the speed changes
  const held = system.load.kind === 'wheel';
  const throttles = [...new Set([0.4, 0.6, 0.8, 1, driven])].filter((d) => d > 0).sort((a, b) => a - b);
  kernel.begin({ duration: 1, hold: 'throttle', value: { from: 1, to: 1 } }, 0, false);
  kernel.solve(0, y);
  const p = { ...kernel.point };
  const top = Math.max(1.25 * p.speed, (1.02 * system.battery.cellsInSeries * p.openCircuit) / p.torqueConstant);
  // a run that ended where the drive has no operating point has no lines either
  const place = { time, vehicleSpeed: y[kernel.at.speed], charge: y[kernel.at.charge] };
  if (!Number.isFinite(top) || p.busVoltage === 0) return { ...place, speed: [], lines: [], load: [], crossings: [], held };
  const even = Array.from({ length: POINTS + 1 }, (_, k) => (top * k) / POINTS);
  const corners = throttles.map((throttle) => kernel.currentEnds(throttle, top));
  const speed = [...new Set([...even, ...corners])].sort((a, b) => a - b);
  const lines = throttles.map((throttle) => ({
    throttle,
    torque: speed.map((w) => kernel.shaftTorque(throttle, w)),
  }));
  const load = speed.map((w) => {
    if (w === 0) return 0;
    kernel.begin({ duration: 1, hold: 'shaftSpeed', value: { from: w, to: w } }, 0, false);
    kernel.solve(0, y);
    return kernel.point.loadTorque;
  });
  const crossings = (held ? [driven] : throttles).flatMap((throttle) => {
    kernel.begin({ duration: 1, hold: 'throttle', value: { from: throttle, to: throttle } }, 0, false);
    kernel.solve(0, y);
    const q = kernel.point;
    const torque = held ? kernel.shaftTorque(throttle, q.speed) : q.loadTorque;
    // a pack that gives nothing any more drives at no point
    if (torque > 0 && q.inputPower <= 0) return [];
    return {
      throttle,
      speed: q.speed,
      torque,
      motorCurrent: q.current,
      // wheels that turn the motor make nothing of what goes in
      efficiency: torque > 0 ? (torque * q.speed) / q.inputPower : 0,
    };
  });
  return { ...place, speed, lines, load, crossings, held };
}
