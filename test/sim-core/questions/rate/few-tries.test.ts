/** How often a search asks: straight lines where things are straight, and where it was before. Counted by the reads of the winding's resistance, one for each balance of a motor. */
import type { DriveSystem } from '@shaftwork/sim-core/drive/drive-system';
import { realise } from '@shaftwork/sim-core/provenance/realise';
import { continuousTorque, runawayTorque } from '@shaftwork/sim-core/questions/rate/continuous-torque';
import { holdDrive } from '@shaftwork/sim-core/questions/rate/held-drive';
import { describe, expect, it } from 'vitest';
import { boat, dataOf, INRUNNER } from '../../provenance/drives.js';
import { oneBodyOf } from './one-body.js';

function counted(system: DriveSystem): { readonly system: DriveSystem; readonly since: () => number } {
  let reads = 0;
  const { resistance } = system.motor;
  const motor = Object.defineProperty({ ...system.motor }, 'resistance', {
    get: () => {
      reads++;
      return resistance;
    },
  });
  return {
    system: { ...system, motor },
    since: () => {
      const count = reads;
      reads = 0;
      return count;
    },
  };
}

const body = oneBodyOf(realise(dataOf()), 0.9, 293.15);
const limited = { ...body, limits: { ...body.limits, windingTemperature: 373.15, magnetTemperature: 473.15 } };

describe('few tries', () => {
  it('are enough for a current that lasts, and fewer at the next speed', () => {
    const { system, since } = counted(limited);
    continuousTorque(system, 0, [0]);
    const one = since();
    continuousTorque(system, 0, [0, 300, 600, 900]);
    const four = since();
    // five balances a step of Newton's method; bisection alone would take some thirteen currents of three steps each
    expect(one).toBeLessThan(132);
    expect(four - one).toBeLessThan(220);
  });
  it('are enough for the torque that runs away', () => {
    const { system, since } = counted(limited);
    runawayTorque(system, 0, 300);
    expect(since()).toBeLessThan(830);
  });
  it('are enough for a speed and for an equilibrium', () => {
    const { system, since } = counted(realise(dataOf(boat({ motor: { ...INRUNNER, kv: '500 rpm/V' } }))));
    const drive = holdDrive(system, 0.5);
    const { speed } = drive.kernel.at;
    drive.hold(0.8);
    since();
    drive.settleSpeed();
    const fresh = since();
    const settled = drive.state[speed];
    drive.hold(0.8);
    drive.settleSpeed();
    const again = since();
    drive.state[speed] = 1.03 * settled;
    drive.hold(0.8);
    drive.settleSpeed();
    const near = since();
    drive.state[speed] = 3 * settled;
    drive.hold(0.8);
    drive.settleSpeed();
    const far = since();
    drive.cold();
    drive.settle();
    const equilibrium = since();
    drive.settle();
    const there = since();
    for (const count of [fresh, again, near]) expect(count).toBeLessThan(14);
    expect(far).toBeLessThan(17);
    expect(equilibrium).toBeLessThan(70);
    expect(there).toBeLessThan(50);
  });
});
