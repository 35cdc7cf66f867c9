/** Words of the report and of the tables, for `explain`. @module */

import type { Explanation } from './explanation.js';

const term = (meaning: string, ...tries: readonly string[]): Explanation => ({ meaning, causes: [], tries });

export const GLOSSARY = {
  winding: term(
    'The copper of the motor. It is the hottest part under load and cannot be reached by a thermometer; its lacquer sets the limit.',
    'Its temperature shows in its resistance: 0.39 % more for each kelvin.',
  ),
  stator: term('The iron that carries the winding. It takes the heat of the winding and passes it on to can or mount.'),
  can: term(
    'The outside of the motor that one can touch: the housing of an inrunner, the turning bell of an outrunner. Heat leaves by its side and its ends.',
  ),
  'hidden peak': term(
    'The highest temperature of the winding during the run, which no reading after the stop shows any more.',
    '“shaftwork reading” goes from a reading back to it.',
  ),
  'heat path': term(
    'How well heat passes from one body to another, in watts per kelvin: twice the path, half the difference of temperature.',
    'The path from winding to stator is the weakest number of most motors: motor.thermal.winding_to_stator.',
  ),
  'through-flow': term(
    'Air drawn through an open motor, past winding and stator. Large in an outrunner in the stream, none in a closed motor.',
  ),
  slipstream: term('The stream behind a propeller, faster than the flight by what the propeller adds.'),
  'water jacket': term('A sleeve or coil of water round the motor, fed by the boat’s own speed. Its conductance grows with that speed.'),
  mount: term('What the motor is screwed to. It takes heat from the can of an inrunner, from the stator of an outrunner.'),
  Kv: term('Speed constant: turns a minute for each volt, without load. The torque constant is its inverse, 9.55 N·m/A over Kv in rpm/V.'),
  'torque constant': term('Torque for each ampere of motor current, in N·m/A; 9.55 over Kv in rpm/V.'),
  'motor constant': term(
    'Torque over the root of the copper loss, in N·m/√W: how good the frame is, whatever its winding. It grows with size, and rewinding does not change it.',
    'Compare two motors of one mass by it: more is cooler for the same torque.',
  ),
  'no-load current': term('What the motor draws turning free: the loss of iron and bearings. It holds at the voltage it was taken at.'),
  'copper loss': term('Current squared times resistance: heat in the winding.'),
  'iron loss': term('Heat of the iron as the field turns through it; it grows with speed, not with load.'),
  draw: term(
    'One run with every number moved at random within its tolerance. Sixty-four of them show how likely a limit is to be passed.',
    '--samples 512 draws more often and narrows the chances.',
  ),
  chance: term(
    'The share of the draws in which something was so, with its 95 % interval. If all 64 draws say yes, that bears 95 % at least, not 100 %.',
  ),
  bias: term(
    'The mean of what was measured less what was predicted: it is off to one side. Of temperatures in kelvins.',
    'A bias in all columns speaks of the drive, one in a single column of its sensor.',
  ),
  RMS: term('Root of the mean square of what was measured less what was predicted: how far off it is, to whichever side.'),
  'in 5–95 %': term(
    'The share of the samples of a log that lie within 5 to 95 % of the draws. Nine of ten are to be expected; noise of the sensor lowers it.',
  ),
  tolerance: term(
    'How far a number may be off: its 95 % interval, written ± beside it. Without ± a usual one for its kind is taken.',
    '± 0 % says that the number is exact.',
  ),
  'as written': term('With each number as it stands in the scenario, or as its rule estimates it; no tolerance drawn.'),
  assumed: term('Not given: a rule or a usual value stands in for it.', '“shaftwork check” lists all of them.'),
  tip: term('The place within a number’s tolerance beyond which another motor leads, or the first one passes a limit.'),
  limit: term(
    'What must not be passed: temperature, current, speed or power, or the charge that must be left.',
    'Give them under limits, maker_limits and discharge_rating.',
  ),
  reserve: term('Charge that must be left at the end of the run, as a share of a full pack: limits: { reserve: 20 % }.'),
  'cut-off': term('The voltage of a cell at which the controller stops the motor.'),
  'reserve when repeated': term(
    'How long the pack lasts if the run is driven again and again without a pause, from the charge that it starts with until only the reserve is left.',
    'limits: { reserve: 20 % } says how much that is.',
  ),
  'cut-off when repeated': term(
    'How long the pack lasts if the run is driven again and again without a pause, from the charge that it starts with until the cells reach their cut-off, which a hard pull may do with much charge left. Motor and controller stay as hot as the last round left them: where the motor burns out first, or the run cannot be calculated further, that is told with its time in place of the cut-off. “over” a time: as long as it was followed nothing ended it.',
    'limits: { reserve: 20 % } adds the time until that much is left, which is the one to plan with.',
    '“shaftwork explain cut-off” tells what the cut-off is.',
  ),
  S1: term('Continuous duty: what may be held for ever (IEC 60034-1).'),
  S2: term('Short-time duty: how long a load may be held from cold (IEC 60034-1).'),
  S3: term(
    'Intermittent duty: load and rest in turn, the same cycle again and again; 25 % means a quarter of the cycle under load (IEC 60034-1).',
  ),
  reading: term(
    'What an instrument showed: volts, amperes, turns, thrust, a winding’s resistance, a temperature. The numbers of the scenario are moved towards what it says and their intervals shrink, each as far as the reading tells of it; a reading three standard deviations off is told with what it contradicts.',
    'readings: [{ throttle: 100 %, voltage: 11.2 V ± 1 %, battery_current: 31 A ± 3 % }, { after: 60 s, can: 58 °C ± 2 K }]',
    '“shaftwork check” lists the readings and what they narrowed.',
  ),
  'bench reading': term(
    'Voltage and current at the controller and the speed, read together at full throttle with the propeller on: they give the resistance, or contradict the sheet.',
    'propeller: { …, measured_with: First, points: [{ shaft_speed: 9300 rpm, battery_current: 31 A, voltage: 11.2 V }] } and motor: { resistance: from-reading }',
  ),
  'from warm': term('From the mean temperatures of the run, where “from cold” begins at those of its start.'),
  'for ever': term(
    'Held until the temperatures stay, within all temperature limits; what a sheet calls continuous. Peak watts of a sheet are a burst.',
    '“shaftwork rate” tells how much of the maker’s figure lasts.',
  ),
  'hardest moment': term('The moment of greatest battery power in the step that asks most, after its first tenth.'),
  'operating point': term('Speed and torque at which motor and load agree.'),
  equilibrium: term('Where as much heat leaves as is lost, so that temperatures stay.'),
  'thermal class': term(
    'What the winding’s insulation bears for long: A 105, E 120, B 130, F 155, H 180 °C (IEC 60085).',
    'motor: { insulation_class: F }',
  ),
  'magnet grade': term(
    'Letters after the magnet’s number, for what it bears: none 80, M 100, H 120, SH 150, UH 180 °C.',
    'motor: { magnet_grade: SH }',
  ),
  identify: term(
    'To find the constants of a motor, its heat data or a pack from a log: the numbers with which the laws come nearest to what was read.',
    '“shaftwork identify” with a bench log; heads such as voltage [V], battery current [A], shaft speed [rpm].',
  ),
  'told by the log': term(
    'A number that a log knows better than a sheet or a rule would. One that it does not tell is refused, however well the curve fits.',
    'Make the run that is named with it: it is calculated from your own bench.',
  ),
  'bench day': term(
    'The runs that tell most of a limit that is not sure, one after another, each chosen with those before it in mind.',
    '“shaftwork identify --plan” with a scenario.',
  ),
  correlation: term(
    'How far two numbers of a fit move together, from −1 to 1. Near either end the log tells only a mixture of them: Kv and resistance, from one propeller.',
    'Another load, another voltage or a bare shaft parts them.',
  ),
  residual: term(
    'What was read less what the laws say. It should scatter without a pattern; where it has one, the laws leave something out.',
  ),
  'discharge rating': term(
    'Current a pack gives, as a multiple of its capacity: 20 C of 5 A·h are 100 A. Labels promise more than packs hold for long.',
  ),
  polarisation: term('The slow part of a cell’s voltage drop: it builds up in half a minute under load and comes back at rest.'),
  'advance ratio': term('Speed over turns a second times diameter: how far the propeller goes in one turn, in diameters.'),
  'useful share of energy': term('Work on the vehicle over energy out of the cells, over the whole run.'),
  'gear ratio': term(
    'Turns of the motor to one turn of wheel or propeller. A higher ratio unloads the motor and slows the vehicle; a lower one loads it.',
  ),
} as const satisfies Readonly<Record<string, Explanation>>;
