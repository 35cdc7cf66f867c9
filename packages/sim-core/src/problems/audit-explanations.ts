/** Kinds of oddity on spec sheets: what each would mean, why it happens, and first of all what measurement settles it. @module */

import type { Explanation } from './explanation.js';

/** Kinds of odd things, and what they mean. */
export const AUDIT_EXPLANATIONS = {
  'rated-power-over-product': {
    meaning: 'The sheet promises more input power than its own voltage times its own current.',
    causes: [
      'Power and current are of different pulls, a burst and a continuous one.',
      'The power is of another wind of the frame.',
      'A slip of a digit.',
    ],
    tries: [
      'Run it at the rated current for two seconds at most and read volts and amperes at the motor’s leads.',
      'Take the smaller of the figures as the limit.',
    ],
  },
  'rated-power-far-below-product': {
    meaning: 'Voltage times current is more than twice the rated power, so that the three cannot be meant together.',
    causes: [
      'The current is a burst, the power continuous.',
      'The voltage is the highest allowed, the power of a smaller pack.',
      'The power is at the shaft.',
    ],
    tries: ['Read volts and amperes at the motor’s leads at the rated power.', 'Keep to the power; it is what heats the motor.'],
  },
  'no-load-speed-over-limit': {
    meaning:
      'Unloaded at the rated voltage the motor would turn faster than its own speed limit; a lost or ventilating propeller would overspeed it.',
    causes: ['Kv is of another wind of the frame.', 'The speed limit is meant under load.', 'A digit of Kv is wrong.'],
    tries: [
      'Run it free at a low voltage, say a third, and read rpm and volts: Kv settles it.',
      'Limit throttle where the load may be lost.',
    ],
  },
  'rotor-surface-speed-high': {
    meaning: 'At its free speed the rim of the rotor is faster than glued magnets are trusted with.',
    causes: [
      'A digit of Kv is wrong.',
      'The voltage is of a smaller motor of the family.',
      'The rotor is bandaged, and the sheet does not say so.',
    ],
    tries: ['Run it free at a third of the voltage and read rpm and volts: Kv settles it.', 'Ask the maker how the magnets are held.'],
  },
  'electrical-speed-high': {
    meaning: 'Pole pairs times speed is more than usual controllers commutate.',
    causes: ['A digit of Kv is wrong.', 'Poles were counted as pole pairs.'],
    tries: [
      'Count the magnets, and run it free at a third of the voltage for Kv.',
      'Look for the highest electrical speed in the controller’s manual.',
    ],
  },
  'motor-constant-out-of-line': {
    meaning:
      'Torque per root of copper loss grows with the size of a motor whatever its winding; this one is far from motors of its kind and mass, so Kv, resistance or mass is not what it seems.',
    causes: [
      'A digit of Kv or resistance is wrong.',
      'The resistance is of one phase, or contains leads and plugs.',
      'The mass is without, or with, a gearbox or a fan.',
    ],
    tries: [
      'Send a known current through two leads and read the millivolts for the resistance; run it free for Kv.',
      'Compare with another sheet of the same motor.',
    ],
  },
  'winds-disagree': {
    meaning: 'Winds of one frame should have one value of resistance times Kv squared; these differ more than winding by hand explains.',
    causes: [
      'One sheet has a wrong digit.',
      'One resistance was measured with leads, or copied from the next wind.',
      'The frames only look alike, with other magnets or lamination.',
    ],
    tries: [
      'Send one known current through two leads of each and compare the millivolts.',
      'Trust the wind whose figures were measured, and give the other the same product.',
    ],
  },
  'reading-and-sheet-apart': {
    meaning:
      'At the voltage and current that were read on the bench the sheet’s Kv and resistance give another speed than the one that was read: one of the three is not what it seems.',
    causes: [
      'The resistance of the sheet is of one phase, or without leads; the Kv is rounded, or of another wind.',
      'The voltage was read at the pack, before wires and plugs.',
      'The winding was hot when it was read, or the throttle was not full.',
    ],
    tries: [
      'Run the motor without load and divide its speed by the voltage: Kv settles which of the two is wrong.',
      'Write resistance: from-reading, and the sheet follows the reading.',
    ],
  },
  'shapes-disagree': {
    meaning:
      'Of motors of one mass and make a longer or a wider one has the resistance that its shape gives it; one of these sheets claims more or less. A printed resistance is good to 25 % and Kv to 9 %, so that the ranking hangs on which of them is right.',
    causes: [
      'One resistance was measured warm, with leads, or of one phase.',
      'One maker’s Kv is rounded or of another wind.',
      'One motor has thinner laminations, more copper or stronger magnets than the other.',
    ],
    tries: [
      'Send one known current through two leads of each and compare the millivolts.',
      'Give both resistances the ± that you believe, and look at the chance in the verdict.',
    ],
  },
  'can-and-mass-apart': {
    meaning: 'A motor of this mass does not fill a can of this size: steel, copper and air together weigh 1.2 to 7.5 g/cm³.',
    causes: [
      'The can is written in the wrong unit, inches for millimetres.',
      'Diameter or length is of the shaft or of the box.',
      'The mass is of another motor.',
    ],
    tries: ['Measure the can with a caliper and put the motor on a kitchen scale.'],
  },
  'peak-efficiency-unlikely': {
    meaning: 'Resistance and no-load current together promise a best efficiency that motors of this kind do not have.',
    causes: ['The no-load current was taken at a low voltage.', 'The resistance is of one phase, or of another wind.', 'A digit is wrong.'],
    tries: [
      'Run it free at the pack’s voltage for the no-load current, and read the millivolts at a known current for the resistance.',
      'Give no_load at two voltages.',
    ],
  },
  'no-load-current-unlikely': {
    meaning:
      'The no-load current is an unusual part of the rated current, or its loss is far from that of motors of this mass, so that one of them is not what it seems.',
    causes: [
      'A digit of it is wrong, or the current was read with the propeller on.',
      'It was taken at another voltage than written.',
      'Milliampere and ampere were mixed.',
      'The rated current is of another wind.',
    ],
    tries: ['Run it free on the pack and read the battery current, less the controller’s idle draw.'],
  },
  'rated-current-near-stall': {
    meaning: 'At the rated current a large part of the rated voltage falls over the winding: the motor would rather heat than turn.',
    causes: ['A digit of the resistance is wrong, or mohm and ohm were mixed.', 'The current is a burst of a second or two.'],
    tries: ['Send a known current through two leads and read the millivolts between them.'],
  },
  'rated-current-overheats': {
    meaning: 'By this model, as cooled in this scenario, the rated current cannot be held for good: it is a burst figure.',
    causes: ['The sheet rates it in a strong wind, or for some seconds.', 'The heat path from winding to iron is estimated too low.'],
    tries: [
      'Hold the rated current for a third of the time told, five seconds at most, rotor at rest, and read the winding’s temperature from its resistance, 0.39 % a kelvin.',
      '“shaftwork rate” tells what can be held, and for how long.',
    ],
  },
  'advertised-power-high': {
    meaning: 'The rated power per mass is far above the 3 W a gram that are held continuously in practice: read it as a burst.',
    causes: ['The rating is for some seconds.', 'The mass is without its fan, cooler or gearbox.'],
    tries: [
      'Weigh it, and time how long the rated power may last before the can passes 70 °C.',
      '“shaftwork rate” tells what can be held.',
    ],
  },
  'sustained-over-half-of-rating': {
    meaning: 'The run asks on average for more than half of the rated power; in practice half of an advertised peak is what lasts.',
    causes: ['The motor is small for the job.', 'The rating is honest and continuous.'],
    tries: [
      'Make a run of half the length and read the can with a thermometer, then the whole: what it gains in the second half tells.',
      'A size larger.',
    ],
  },
  'input-per-mass-high': {
    meaning: 'The run’s mean input is more than about 3 W a gram, which only well cooled motors stand.',
    causes: ['The motor is small for the job.', 'Water or much air cools it.'],
    tries: ['Run a quarter of the profile and read can and winding.', 'A size larger, or a smaller propeller.'],
  },
  'loaded-speed-out-of-band': {
    meaning:
      'A motor well matched to its load turns at 0.75 to 0.85 of Kv times voltage at full throttle; far off it is overloaded, or hardly loaded.',
    causes: ['Propeller or gear does not suit the Kv.', 'A digit of Kv is wrong.', 'The propeller data are off.'],
    tries: ['Read rpm and volts at full throttle with the propeller on.', '“shaftwork rewind” finds the Kv that suits the load.'],
  },
  'load-light': {
    meaning:
      'Most of what it loses is iron and friction: it turns fast for what it carries. A lower Kv would lose less, or, where it stays cool, a smaller motor.',
    causes: ['The motor was chosen for a peak that is short.', 'The Kv is high, so that it idles fast.'],
    tries: [
      'Read the battery current with the propeller off at the run’s throttle, and compare it with the run’s own current.',
      'A lower Kv; where the motor stays cool, a smaller one.',
    ],
  },
  'tip-mach-high': {
    meaning: 'The blade tips come near the speed of sound, where noise rises and the coefficients no longer hold.',
    causes: ['The propeller is large for the speed.', 'A digit of Kv is wrong.'],
    tries: [
      'Read the rpm at full throttle; tip speed is π times diameter times revolutions a second.',
      'A larger pitch on a smaller diameter, or a lower Kv.',
    ],
  },
  'can-hotter-than-practised': {
    meaning: 'The can gets hotter than the 60 to 70 °C that people keep to because magnets and glue have served well below it.',
    causes: ['Too little cooling.', 'The load is large for the motor.'],
    tries: ['A probe on the can over the hardest minute.', '“shaftwork cool” finds the smallest cooling that would do.'],
  },
  'air-at-motor-fast': {
    meaning:
      'So much air moves past a motor within a boat or car where a strong fan blows straight at it, not by itself: the motor is calculated cooler than it will be.',
    causes: ['The speed of the vehicle was meant, or that at the mouth of the fan.', 'Kilometres an hour were written as metres a second.'],
    tries: [
      'Hold a wind meter where the motor sits, with the lid on.',
      'Give the fan by its flow and diameter: cooling: { fan: { diameter: 40 mm, flow: 180 L/min } }.',
    ],
  },
  'pack-capacity-unlikely': {
    meaning:
      'No pack of a model has this capacity, or none of this mass holds so much or so little energy; times, charge left and sag all hang on it.',
    causes: [
      'Milliampere-hours and ampere-hours were mixed.',
      'The capacity is of one cell, or of several packs together.',
      'The mass is of something else, or in another unit.',
    ],
    tries: ['Read the label once more: 5000 mAh are 5 Ah.', 'Charge it from empty and read the charger’s mAh; weigh it.'],
  },
  'discharge-optimistic': {
    meaning:
      'The run draws more than good packs deliver without sagging and ageing, 12 to 36 times the capacity an hour whatever the label says.',
    causes: ['The pack is small for the load.', 'The discharge rating is of a burst.'],
    tries: [
      'Note the loaded voltage of each cell in the hardest second; below 3.3 V the pack is too small.',
      'More capacity, or cells in parallel.',
    ],
  },
  'blade-angles-apart': {
    meaning: 'The measured twist and the printed pitch are two readings of one angle, and disagree; their mean is taken, with more doubt.',
    causes: [
      'Photographs take a thin, cambered, twisted edge to a degree or two.',
      'The printed pitch is that of the face, rounded, or of another mould.',
      'Twist was counted from another line than the chord, or radius and pitch have different units.',
    ],
    tries: [
      'Measure the angle at three quarters of the radius once more.',
      'Turn the propeller at rest and write speed, thrust and power as points beside the blade.',
    ],
  },
  'many-blades': {
    meaning:
      'So many blades belong to a ducted fan. A duct carries part of the thrust and is not modelled: the blades are taken to turn free.',
    causes: ['A fan in a duct.', 'A slip in the number of blades.'],
    tries: ['Measure the fan in its duct and give it as measured-points or coefficients.'],
  },
  'measured-points-apart': {
    meaning:
      'Thrust and torque of a propeller go with the square of its speed, within a few per cent; these points do not lie on one such curve.',
    causes: [
      'One of the points has a slip of a digit or a wrong unit.',
      'Speed was read as that of the motor ahead of a gear, or with a wrong number of blades in the tachometer.',
      'The stand’s zero had drifted, or the propeller stood in its own wash.',
    ],
    tries: [
      'Divide each thrust by its speed squared, and measure again the point that stands out.',
      'Leave a point out that cannot be measured again.',
    ],
  },
  'number-far-from-models': {
    meaning:
      'A number of wheel, gear or wing lies where no model is, from those one holds in a hand to those a child rides; every figure that hangs on it is as far off.',
    causes: [
      'A unit or prefix is wrong: cm for mm, or a point in the wrong place.',
      'The ratio was turned round: it counts turns of the motor to one of the wheel.',
      'A diameter was written as a radius.',
    ],
    tries: ['Read the line once more, with its unit, and hold a ruler or a scale to the thing.', 'If it is so, nothing else need be done.'],
  },
  'interval-wide': {
    meaning:
      'An interval so wide says next to nothing: the draws take all of it, and what they tell of chances and bands is mostly this one doubt.',
    causes: ['It stands for “I do not know”.', 'A slip of a digit.'],
    tries: [
      'Measure the number: “check” and the reference say how.',
      'Leave the ± out for the usual one of its kind, or the line, where a rule may estimate it.',
    ],
  },
} as const satisfies Readonly<Record<string, Explanation>>;
