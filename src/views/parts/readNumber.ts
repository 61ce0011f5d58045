/**
 * From what a person typed to a number, or to a sentence that says what is wrong, what was understood and what to type.
 * Nothing is coerced in silence: a decimal comma, a missing point or another unit is named and offered, never assumed.
 */

/** How one quantity is typed in one unit. Limits are physical plausibility, not the verdict's limits. */
export interface NumberSpec {
  /** In a sentence: "temperature". */
  name: string;
  /** Empty for a pure number. */
  unit: string;
  lowest: number;
  highest: number;
  /** A reading that a person in this trade would expect, for the message. */
  example: string;
  /** The same quantity in other units, to recognise a number typed in one of them. */
  otherUnits?: readonly OtherUnit[];
}

export interface OtherUnit {
  unit: string;
  lowest: number;
  highest: number;
  inThisUnit: (value: number) => number;
  /** True where the form lets a person choose this unit, so that the typed number can stay as it is. */
  canBeChosen: boolean;
}

/** What was probably meant: a text to put in place of the typed one, or a unit to switch to. */
export type Slip = { kind: 'text'; text: string } | { kind: 'unit'; unit: string };

export type ReadNumber =
  | { state: 'empty' }
  | { state: 'number'; value: number }
  | { state: 'wrong'; message: string; slip: Slip | null };

const numberPattern = /^[+\-−]?(\d+\.?\d*|\.\d+)$/;

export function readNumber(typed: string, spec: NumberSpec): ReadNumber {
  const text = typed.trim();
  if (text === '') return { state: 'empty' };
  const { name, unit, lowest, highest, example } = spec;
  if (/^[+\-−]?\d*,\d+$/.test(text)) {
    const pointed = text.replace(',', '.');
    return {
      state: 'wrong',
      message: `“${text}” has a decimal comma. Type a point: ${pointed}.`,
      slip: { kind: 'text', text: pointed },
    };
  }
  if (!numberPattern.test(text)) {
    return {
      state: 'wrong',
      message: `“${text}” is not a number. Type the ${name}${unit && ` in ${unit}`}, for example ${example}.`,
      slip: null,
    };
  }
  const value = Number(text.replace('−', '-'));
  if (value >= lowest && value <= highest) return { state: 'number', value };
  return outOfRange(text, value, spec);
}

function outOfRange(text: string, value: number, spec: NumberSpec): ReadNumber {
  const { name, unit, lowest, highest, otherUnits = [] } = spec;
  const range = `${name} from ${written(lowest)} to ${withUnit(written(highest), unit)}`;
  const impossible = `${withUnit(text, unit)} cannot be`;
  for (const other of otherUnits) {
    if (value < other.lowest || value > other.highest) continue;
    const converted = shortest(other.inThisUnit(value));
    return {
      state: 'wrong',
      message: `${impossible}: it looks like ${other.unit} (${withUnit(converted, unit)}). Expected: ${range}.`,
      slip: other.canBeChosen ? { kind: 'unit', unit: other.unit } : { kind: 'text', text: converted },
    };
  }
  for (const shift of [10, 0.1, 100, 0.01]) {
    const shifted = value * shift;
    if (shifted < lowest || shifted > highest) continue;
    const shiftedText = shortest(shifted);
    return {
      state: 'wrong',
      message: `${impossible}. Was ${shiftedText} meant? Expected: ${range}.`,
      slip: { kind: 'text', text: shiftedText },
    };
  }
  return { state: 'wrong', message: `${impossible}. Expected: ${range}.`, slip: null };
}

const shortest = (value: number) => String(Number(value.toPrecision(4)));
const withUnit = (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`);
const written = (value: number) => (value < 0 ? `−${Math.abs(value)}` : String(value));
