import { AUDIT_EXPLANATIONS } from './audit-explanations.js';
import type { Explanation } from './explanation.js';
import type { ProblemKind } from './scenario-problem.js';

export const PROBLEM_EXPLANATIONS: { readonly [K in ProblemKind]: Explanation } = {
  'unreadable-text': {
    meaning: 'The file is not text in UTF-8, so signs such as °, ± and Ω cannot be told apart.',
    causes: [
      'An editor saved it as Latin-1 or Windows-1252.',
      'It was converted twice, which turns ° into Â°.',
      'It is UTF-16, or no text file at all.',
    ],
    tries: ['Save it again as UTF-8.', 'Write degC, ohm, u for µ, and +/- in plain letters.'],
  },
  'too-large': {
    meaning: 'There is more than a scenario needs and than can be read in reasonable time and memory.',
    causes: [
      'Another file was named by mistake.',
      'Anchors and aliases multiply each other.',
      'Repeats inside repeats make too many steps.',
    ],
    tries: ['Check the file name.', 'Replace many equal steps by one longer step.', 'Thin out long tables.'],
  },
  'too-deep': {
    meaning: 'Lists and maps are nested deeper than any scenario is.',
    causes: ['A bracket was opened again and again and never closed.', 'Each line is indented further than the one above.'],
    tries: ['Close the brackets.', 'Begin lines of one section in the same column.'],
  },
  'broken-yaml': {
    meaning: 'The text breaks the rules of YAML, or keeps them in a way that nobody means.',
    causes: [
      'A tab or a no-break space stands where a blank should.',
      'A blank is missing after a colon.',
      'A comma inside { } ends a value early.',
      'A # after a blank cuts a text off.',
      'A bracket or quotation mark is not closed.',
      'A key stands twice in one section.',
    ],
    tries: [
      'Look at the line named and the one above.',
      'Put texts with signs such as : , # [ { @ in quotation marks.',
      'Indent with two blanks a level.',
    ],
  },
  'broken-table': {
    meaning: 'A row of a log file has not as many cells as the head has names.',
    causes: ['Decimal commas part numbers in two where commas part the cells.', 'A line was cut off when the logger lost its power.'],
    tries: ['Export the log with a point before decimals.', 'Delete the line named, or write its missing cells as empty ones.'],
  },
  'unknown-key': {
    meaning:
      'A key is not one that is read in this place. It is refused rather than passed over, since a misspelt key would silently be an estimate.',
    causes: ['A slip of the keyboard.', 'The key belongs one level higher or lower.', 'It belongs to another kind of propeller.'],
    tries: ['Take the nearest key that the message names.', 'Let your editor complete keys: “shaftwork schema” writes the JSON Schema.'],
  },
  'missing-datum': {
    meaning: 'Something is missing that cannot be estimated from the rest.',
    causes: [
      'The line was left out, or has no value after its colon.',
      'A candidate removed it with none.',
      'The line is indented into another section.',
    ],
    tries: ['Look where the message says one usually finds it.', 'Measure it; “shaftwork check” says how, cheaply.'],
  },
  'wrong-type': {
    meaning: 'A list, a section or a single value stands where another of the three is due.',
    causes: [
      'Lines below a section are not indented.',
      'A dash is missing before the rows of a list, or one is too many.',
      'A blank is missing after a colon.',
    ],
    tries: ['Compare the lines with a demo.', 'Indent what belongs to a section by two blanks.'],
  },
  'bare-number': {
    meaning: 'A number stands without its unit, so that 65 might be ohm or milliohm.',
    causes: ['The unit stands in the name of the row where the number was copied from.'],
    tries: ['Write the unit after the number, as on the data sheet.'],
  },
  'wrong-unit': {
    meaning: 'The unit cannot be read, or may mean two things.',
    causes: [
      'A spelling that is not known.',
      'A capital letter in the wrong place: mohm is milliohm, Mohm is megohm.',
      'C, which is °C, coulomb, or a multiple of the capacity.',
    ],
    tries: ['Take the spelling that the message proposes.', 'Numbers of poles, blades and ratios have no unit.'],
  },
  'wrong-dimension': {
    meaning: 'The unit is a good one of another quantity, such as V where a resistance is due.',
    causes: [
      'The value stands one line too low or high.',
      'W·h was given for a capacity: divide it by the nominal voltage.',
      'Grams were given for a force: write gf.',
    ],
    tries: ['Check which quantity the data sheet means.'],
  },
  'bad-number': {
    meaning: 'There is no number where one is due, or it is written in a way that may be read in two ways.',
    causes: ['A comma before decimals.', 'Separators between thousands.', 'Text before the number, or two values in one place.'],
    tries: ['Write a point before decimals and nothing between thousands.', 'Write very small numbers as 2.4e-4.'],
  },
  'bad-tolerance': {
    meaning: 'What follows ± is not the half-width of a 95 % interval.',
    causes: [
      'A tolerance of 100 % or more.',
      'A % of a temperature, which depends on where its zero lies.',
      'A tolerance where none can be, as in a row of a table.',
    ],
    tries: ['Write ± 15 %, or ± 10 mohm in the unit of the value.', 'Give a temperature its tolerance in K.'],
  },
  'out-of-range': {
    meaning: 'The value cannot be, or lies where the laws used here do not hold.',
    causes: ['A sign, a decimal point or a prefix is wrong: kg for g, M for m.', 'Rows of a table are not in rising order.'],
    tries: ['Check the unit and its prefix.', 'Sort the rows.'],
  },
  'unknown-choice': {
    meaning: 'The word is not one of those that can stand here.',
    causes: ['A slip of the keyboard.', 'An underscore for a hyphen: values are hyphenated, keys have underscores.'],
    tries: ['Take one of the words that the message lists.'],
  },
  conflict: {
    meaning: 'Two things are said that exclude each other.',
    causes: [
      'A propeller and a wheel.',
      'Two holds in one step of the profile.',
      'A part file of one kind is used in a section of another.',
    ],
    tries: ['Take one of the two out.', 'Remove for one candidate what all have in common by none.'],
  },
  'missing-file': {
    meaning: 'A file that is named cannot be read.',
    causes: [
      'A slip in its name; capital letters count.',
      'The path is counted from where the command was typed: use: counts from the file that says it.',
    ],
    tries: ['List the folder.', 'Write the path with forward slashes.'],
  },
  'circular-use': {
    meaning: 'A part file leads back to itself through use:.',
    causes: ['Two part files use each other.', 'A part was copied and still names itself.'],
    tries: ['Take one use: out of the ring that the message shows.'],
  },
  'use-outside': {
    meaning:
      'A part file lies outside the folder of the scenario. It is refused so that a scenario from elsewhere cannot read your other files.',
    causes: ['The path begins with /, or climbs out with two dots.', 'An address on the web, or a path with backslashes.'],
    tries: ['Move or copy the part below the folder of the scenario.'],
  },
  'duplicate-name': {
    meaning: 'Two candidates have one name, so that a table could not tell them apart.',
    causes: ['A candidate was copied and changed elsewhere only.'],
    tries: ['Name them by what differs.'],
  },
  'nothing-to-do': {
    meaning: 'There is nothing to calculate.',
    causes: ['The file is empty.', 'There is no candidate, or no step in the profile.'],
    tries: [
      '“shaftwork init” writes a scenario to start from.',
      'The smallest scenario has a battery, a propeller, one step and one motor.',
    ],
  },
};

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
      'A smaller or flatter propeller, or a taller gear.',
      '“shaftwork rate” shows how long the load may last.',
    ],
  },
  'step-not-held': {
    meaning: 'What the step asks for cannot be reached, even at full throttle; the run went on at full throttle.',
    causes: [
      'The voltage is too low for the speed.',
      'The controller holds the current back.',
      'The load needs more than the motor gives.',
    ],
    tries: ['Compare what was wanted with what was reached.', 'More cells, a higher Kv, or a shorter gear.'],
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
    tries: ['A shorter gear, or a smaller load.', 'Keep such a step short.'],
  },
  'current-limited': {
    meaning: 'The controller held the current back at its limit, so that the motor got less than the throttle asked for.',
    causes: ['The load is too large for the controller.', 'The limit in the scenario is lower than the real one.'],
    tries: ['A smaller load, or a larger controller.', 'Check motor_current_limit and battery_current_limit.'],
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
    meaning: 'The step slows down faster than the motor can brake; the rest would be left to brakes or to drag.',
    causes: ['Braking is none, and the step slows down quickly.', 'The controller limits the current while braking too.'],
    tries: ['A longer ramp.', 'braking: regenerative, if the controller can.'],
  },
  'wheels-spin': {
    meaning:
      'The step asks for more force than the tyres pass to the ground, forward or braking; the run went on with what the ground takes, as if the throttle were eased.',
    causes: ['The ramp of speed is too steep for the grip.', 'The grip is set lower than that of the real ground.'],
    tries: ['A longer ramp.', 'Check grip and driven_share under wheel, and the mass of the vehicle.'],
  },
  'below-stall-speed': {
    meaning:
      'The step holds an air speed at which the wing cannot carry the weight; drag was taken at the most lift the wing has, and the path is not one that could be flown.',
    causes: ['The speed of the step is too low.', 'The model is too heavy for its wing.', 'Thin air, high up on a hot day.'],
    tries: ['Hold at least the slowest speed that is named, with some to spare.', 'Check the mass, and area and most lift of the wing.'],
  },
  'steeper-than-vertical': {
    meaning:
      'The step holds a throttle and an air speed that do not go together even straight up or straight down: with more thrust than weight and drag the aircraft would gain speed, with more drag than weight lose it. The run went on at the speed held.',
    causes: ['The throttle is higher, or the speed lower, than what is flown.', 'The weight is set too low.'],
    tries: ['Hold the speed and its climb, or the throttle alone.', 'Less throttle.'],
  },
  'bodies-joined': {
    meaning: 'Two bodies that exchange heat much faster than all else were reckoned as one; the error is named.',
    causes: ['A very large conductance between them.', 'A very small heat capacity.'],
    tries: ['Nothing, if the error is small.', 'Check the data under thermal.'],
  },
} as const satisfies Readonly<Record<string, Explanation>>;

/** The text for a kind of problem or finding, or undefined for a word that is neither. */
export function explanationOf(kind: string): Explanation | undefined {
  const all: Readonly<Record<string, Explanation>> = { ...PROBLEM_EXPLANATIONS, ...FINDING_EXPLANATIONS, ...AUDIT_EXPLANATIONS };
  return Object.hasOwn(all, kind) ? all[kind] : undefined;
}

export const EXPLAINED_KINDS: readonly string[] = [
  ...Object.keys(PROBLEM_EXPLANATIONS),
  ...Object.keys(FINDING_EXPLANATIONS),
  ...Object.keys(AUDIT_EXPLANATIONS),
];
