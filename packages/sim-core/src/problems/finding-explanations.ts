/** What `explain` says of each kind of finding. @module */

import type { Explanation } from './explanation.js';

/** Kinds of findings, spelt as in results/; a test holds the two lists equal. */
export const FINDING_EXPLANATIONS = {
  'limit-passed': {
    meaning: 'A temperature, current, speed or charge passed the limit that was set for it.',
    causes: [
      'The load is larger than the motor can drive for that long.',
      'Too little cooling.',
      'A limit derived from a class or grade is stricter than needed.',
    ],
    tries: [
      '“shaftwork cool” finds the smallest cooling that would do.',
      'A smaller or flatter propeller, or a higher gear ratio (more turns of the motor to one of the output).',
      '“shaftwork rate” shows how long the load may last.',
    ],
  },
  'step-not-held': {
    meaning:
      'What the step asks for cannot be reached, even at full throttle; the run went on at full throttle. What cannot climb a slope stands there: nothing rolls backwards here.',
    causes: [
      'The voltage is too low for the speed.',
      'The controller holds the current back.',
      'The load needs more than the motor gives.',
    ],
    tries: [
      'Compare what was wanted with what was reached.',
      'More cells or a higher Kv; a lower gear ratio where speed is lacking, a higher one where pull is.',
    ],
  },
  'no-operating-point': {
    meaning: 'There is no steady state in which motor and load agree.',
    causes: ['The load asks for more torque than the motor has at any speed.', 'Some datum is far from reality.'],
    tries: ['“shaftwork check” says which numbers look odd.', 'Try a smaller load.'],
  },
  'several-operating-points': {
    meaning: 'Motor and load agree at more than one speed; the run took the one that is reached from below.',
    causes: ['A propeller table with a kink.', 'Drag that falls with speed, as of a boat that begins to plane.'],
    tries: ['Look at the torque curves in the report.', 'Check the rows of the table about the speeds named.'],
  },
  'magnets-weakened': {
    meaning:
      'The armature’s field and the heat together pass what the magnets bear: they lose part of their strength for good, Kv rises and torque falls.',
    causes: ['A current peak with hot magnets.', 'Thin magnets, or a grade without letters (N) in a hot motor.'],
    tries: ['A lower motor_current_limit.', 'A grade for more heat (H, SH), or a cooler motor.', 'Check magnet_thickness and air_gap.'],
  },
  'pack-overcharged': {
    meaning: 'Braking charges the pack beyond full, which lithium cells do not survive: they swell and may burn.',
    causes: ['A long way downhill with a full pack.', 'Braking that gives back more than was taken.'],
    tries: ['Start with less charge: start: { charge: 80 % }.', 'A controller that does not give back: braking: none.'],
  },
  'motor-overrun': {
    meaning:
      'The load turns the motor so fast that its own voltage passes the pack’s. The controller’s diodes then conduct whatever the throttle says: the motor brakes and charges the pack, which is not calculated here.',
    causes: ['A dive, or a steep way downhill.', 'A held speed far above what the drive gives.'],
    tries: ['A motor of lower Kv, or a lower speed.', 'braking: regenerative calculates the current.'],
  },
  'blade-area-small': {
    meaning:
      'By a rule of ship design (Keller) the blades have too little area for that thrust: they may cavitate, lose thrust, let the motor race and wear away. On models a caution, not a limit.',
    causes: ['A small screw for the thrust.', 'Narrow blades.', 'A shaft near the surface, warm water, or great height.'],
    tries: [
      'A larger screw, with less pitch.',
      'Broader blades, or two drives.',
      'Listen and look: a cavitating screw hisses and leaves a white trail.',
    ],
  },
  'thermal-runaway': {
    meaning:
      'Held for ever, this load has no equilibrium: hotter copper loses more, weaker magnets need more current, and cooling never catches up. It says nothing against short bursts.',
    causes: ['A load far above the continuous one.', 'Too little cooling for the losses.'],
    tries: ['“shaftwork rate” tells what may last for ever, and how long this may.', '“shaftwork cool” tells the cooling that would do.'],
  },
  'motor-stalled': {
    meaning: 'The motor stands still under current: all its power is heat.',
    causes: ['The load holds it.', 'The step asks for a shaft speed of zero.'],
    tries: ['A higher gear ratio (more turns of the motor to one of the output), or a smaller load.', 'Keep such a step short.'],
  },
  'current-limited': {
    meaning:
      'The controller held the current back, at its limit of motor or battery current or because it was hot, so that the motor got less than the throttle asked for.',
    causes: [
      'The load is too large for the controller.',
      'The controller is hot and derates.',
      'The limit in the scenario is lower than the real one.',
    ],
    tries: [
      'A smaller load, or a larger controller.',
      'Check motor_current_limit, battery_current_limit and derating.',
      'A controller with sinusoidal current tells the peak of a phase: √3/2 (0.87) of it is the motor current meant here.',
    ],
  },
  'burnt-out': {
    meaning:
      'A part became so hot that it is destroyed: enamel softens (320 °C), magnets lose their magnetism (312 °C), solder melts (217 °C), cells burn (250 °C). The run ends there.',
    causes: ['A load far above what the motor may carry for so long.', 'Too little cooling.', 'A resistance or a heat path that is wrong.'],
    tries: [
      '“shaftwork rate” shows how long the load may last.',
      '“shaftwork check” says which numbers look odd.',
      'A smaller propeller, a higher ratio of the gear, more cooling.',
    ],
  },
  'cut-off-reached': {
    meaning: 'The voltage of the cells fell to the cut-off, and the controller stopped the motor.',
    causes: ['The pack is nearly empty.', 'A high current pulls the voltage down while charge is left.', 'Cells that are cold or old.'],
    tries: ['A shorter run, a larger pack, or one with less resistance.', 'Check cell_resistance and cell_cutoff.'],
  },
  'battery-empty': {
    meaning: 'The charge was used up before the profile ended.',
    causes: ['The profile asks for more than the pack holds.', 'The run began with little charge.'],
    tries: ['A larger pack, or a shorter profile.', 'Check capacity and the charge at the start.'],
  },
  'outside-propeller-table': {
    meaning: 'The propeller worked at an advance ratio that its table does not cover.',
    causes: ['A coefficient table that ends early.', 'Measurements at rest, used in flight.'],
    tries: ['Add rows out to the advance ratio named.', 'Use blade-element or marine-series, which cover the whole range.'],
  },
  'outside-drag-table': {
    meaning: 'The vehicle went faster than its drag was given for; beyond the last row the drag grew with the square of speed.',
    causes: ['The drag rows end early.', 'The drag is too small, so that the vehicle is too fast.'],
    tries: ['Add a row at the speed named.'],
  },
  'does-not-fit': {
    meaning: 'The motor is larger or heavier than the space that was given.',
    causes: ['Another motor is meant for this model.', 'Size with shaft and size without it were mixed.'],
    tries: ['Check can and mass.', '“shaftwork reshape” compares long and wide motors of equal mass.'],
  },
  'braked-beyond-drive': {
    meaning:
      'The step slows down, or goes down, faster than the drive brakes it; the rest would be left to brakes or to drag. A held speed is never braked by a propeller: it is let go to turn freely.',
    causes: [
      'The controller does not brake, and the step slows down quickly.',
      'The controller limits the current while braking too.',
      'A descent asks a propeller to brake.',
    ],
    tries: [
      'A longer ramp.',
      'braking: regenerative, if the controller can.',
      'For a propeller that brakes: hold a low throttle beside the vehicle_speed, with braking: regenerative.',
    ],
  },
  'wheels-spin': {
    meaning:
      'The step asks for more force than the tyres pass to the ground, forward or braking; the run went on with what the ground takes, as if the throttle were eased. The peak thrust may be a little larger: a part of it only turns wheels and rotor faster.',
    causes: ['The ramp of speed is too steep for the grip.', 'The grip is set lower than that of the real ground.'],
    tries: ['A longer ramp.', 'Check grip and driven_share under wheel, and the mass of the vehicle.'],
  },
  'below-stall-speed': {
    meaning:
      'The step holds an air speed at which the wing cannot carry the weight; drag was taken at the most lift the wing has, and the path is not one that could be flown.',
    causes: ['The speed of the step is too low.', 'The model is too heavy for its wing.', 'Thin air, high up on a hot day.'],
    tries: [
      'Write vehicle_speed beside the throttle, with the speed that is flown: the climb then comes out.',
      'Hold at least the slowest speed that is named, with some to spare.',
      'Check the mass, and area and most lift of the wing.',
    ],
  },
  'steeper-than-vertical': {
    meaning:
      'The step holds a throttle and an air speed that do not go together even straight up or straight down: with more thrust than weight and drag the aircraft would gain speed, with more drag than weight lose it. The run went on at the speed held.',
    causes: ['The throttle is higher, or the speed lower, than what is flown.', 'The weight is set too low.'],
    tries: ['Hold the speed and its climb, or the throttle alone.', 'Less throttle.'],
  },
  'reading-contradicts': {
    meaning:
      'A reading lies more than three standard deviations from what the numbers of the scenario allow, each within its interval, or from what the other readings say. It was used all the same, so the numbers were bent to it: do not trust them before this is settled.',
    causes: [
      'A slip of the pen, or another unit.',
      'It was taken on another drive, propeller or pack than the one written, or the profile was not driven as written.',
      'A number of the scenario is wrong by more than its ±; the message names the one that would have to move farthest.',
    ],
    tries: ['Read it again.', 'Check the number that is named.', 'Take the reading out: every other number then stands as before.'],
  },
} as const satisfies Readonly<Record<string, Explanation>>;
