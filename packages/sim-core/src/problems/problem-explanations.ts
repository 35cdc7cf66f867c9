/** Kinds of problem with what was written: what each means, why it happens, what to do. @module */

import type { Explanation } from './explanation.js';
import type { ProblemKind } from './scenario-problem.js';

/** Kinds of problems, and what they mean. */
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
      'A log has been written for hours, many times a second.',
    ],
    tries: [
      'Check the file name.',
      'Replace many equal steps by one longer step.',
      'Thin out long tables.',
      'Cut a log into its runs.',
      'Run many candidates in several scenarios.',
    ],
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
      'A step says neither how long it takes nor what it holds, or a repeat has no steps.',
      'A log lacks a column that is needed, its time in a row, or a word on whether its speed is imposed.',
      'A reading says when it was taken but not what was read, or not on whose motor.',
      'A part file does not say which part it is.',
    ],
    tries: [
      'Look where the message says one usually finds it.',
      'Name the column of the log that it stands in: columns: { time: Zeit }.',
      'Measure it; “shaftwork check” says how, cheaply.',
    ],
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
    meaning: 'Two things are said that exclude each other, or numbers that cannot all be true of one drive.',
    causes: [
      'Two of a kind where one is due: a propeller and a wheel, wheels and a wing, a pack and a bench supply, pitch and pitch ratio, two drag areas.',
      'Two holds in one step of the profile or in a log, a climb and a grade, or a climb faster than the speed.',
      'A part file of one kind is used in a section of another.',
      'A log has two columns of one name, or another unit than the one that was said.',
      'A cooling that does not belong to the motor, such as a jacket on a turning bell, or fins without spacing between them.',
      'Heat data that cannot be of one motor: a whole way beside its part, or capacities that its mass does not hold.',
      'Limits, start temperatures or weather that contradict each other: a start above the limit, water that boils.',
      'No-load figures, resistance and bench reading of a motor that leave nothing, or less than nothing, for each other.',
      'One measurement written in two places, or a reading that says two occasions at once.',
    ],
    tries: [
      'Take one of the two out.',
      'Remove for one candidate what all have in common by none.',
      'Where numbers contradict each other look at their units first.',
    ],
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
    causes: [
      'The path begins with /, or climbs out with two dots.',
      'An address on the web, or a path with backslashes.',
      'A link leads out of the folder.',
    ],
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
