/**
 * From what a person typed to a number, or to a sentence that says what is wrong, what was understood and what to type.
 * Point and comma are both read as the decimal mark. Nothing else is taken for granted: marks between thousands, a mark
 * in the wrong place or another unit is named and offered, never assumed.
 */
import { inField, marked, plain } from './figures.ts';

/** How one quantity is typed in one unit. Limits are physical plausibility, not the verdict's limits. */
export interface NumberSpec {
  /** In a sentence: "temperature". */
  name: string;
  /** Empty for a pure number. */
  unit: string;
  lowest: number;
  highest: number;
  /** A reading that a person in this trade would expect, with a point, for the message. */
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

const numberPattern = /^[+\-−]?(\d+[.,]?\d*|[.,]\d+)$/;
/** Thousands parted by one mark, and decimals after the other. */
const groupedPattern = /^([+\-−]?)(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d{1,3}(?:\.\d{3})+(?:,\d+)?)$/;

export function readNumber(typed: string, spec: NumberSpec): ReadNumber {
  const text = typed.trim();
  if (text === '') return { state: 'empty' };
  const { name, unit, lowest, highest, example } = spec;
  if (numberPattern.test(text)) {
    const value = Number(text.replace('−', '-').replace(',', '.'));
    return value >= lowest && value <= highest ? { state: 'number', value } : outOfRange(text, value, spec);
  }
  const meant = withoutGroups(text);
  if (meant !== null) {
    return {
      state: 'wrong',
      message: `“${text}” has more than one mark. A number has one at most, before its decimals. Was ${meant} meant?`,
      slip: { kind: 'text', text: meant },
    };
  }
  return {
    state: 'wrong',
    message: `“${text}” is not a number. Type the ${name}${unit && ` in ${unit}`}, for example ${marked(example)}.`,
    slip: null,
  };
}

/** `1.013,2` and `1,013.2` as 1013.2; null where the marks do not stand between thousands. */
function withoutGroups(text: string): string | null {
  const [, sign = '', digits] = groupedPattern.exec(text) ?? [];
  if (digits === undefined) return null;
  const first = /[.,]/.exec(digits)?.[0] ?? '';
  return sign + marked(digits.replaceAll(first, '').replace(',', '.'));
}

function outOfRange(text: string, value: number, spec: NumberSpec): ReadNumber {
  const { name, unit, lowest, highest, otherUnits = [] } = spec;
  const range = `${name} from ${plain(lowest)} to ${withUnit(plain(highest), unit)}`;
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
  // The mark one or two places off; or, as in 1,013, between thousands.
  for (const shift of [10, 0.1, 100, 0.01, 1000]) {
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

/** Four digits, as a field takes them. */
const shortest = (value: number) => inField(Number(value.toPrecision(4)));
const withUnit = (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`);
