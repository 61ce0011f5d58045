/**
 * How numbers and times are written on every screen: one precision per quantity, a true minus sign, and the laboratory's
 * own decimal mark, dates and clock; the browser's language has no say. Decimals follow what the reading can carry: VA 2
 * as typed and 3 as computed, DLCO 2 or 3 by its unit.
 */
import { type DlcoUnit, type WallClock, wallClockOf } from '../../core/index.ts';
import { localClock, padded } from './localTime.ts';
import { type Writing, writingInForce } from './writing.ts';

const minus = '−';

/** A number's text with a point, with the decimal mark in force. */
export const marked = (text: string) =>
  writingInForce().decimalMark === 'comma' ? text.replace('.', ',') : text;

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const isZero = Number(text) === 0;
  return marked(text.startsWith('-') ? `${isZero ? '' : minus}${text.slice(1)}` : text);
}

function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return Number(value.toFixed(decimals)) > 0 ? `+${text}` : text;
}

export const litresTyped = (litres: number) => fixed(litres, 2);
/** As it was typed, where that has more decimals. */
export const litresAsTyped = (value: number) => (decimalsOf(value) > 2 ? plain(value) : litresTyped(value));
export const litres = (value: number) => fixed(value, 3);
/** One digit more than the readings' mean: the SD of a VA series, in litres. */
export const litresSd = (value: number) => fixed(value, 4);
export const millilitres = (ml: number) => fixed(ml, 0);
export const tenthsOfMillilitre = (ml: number) => fixed(ml, 1);
export const signedMillilitres = (ml: number) => signed(ml, 0);
export const factor = (value: number) => fixed(value, 4);
export const zInTable = (z: number) => signed(z, 2);
export const zOnChart = (z: number) => signed(z, 1);
export const signedPercent = (fraction: number, decimals = 1) => signed(fraction * 100, decimals);
export const percent = (fraction: number, decimals = 1) => fixed(fraction * 100, decimals);
/** A limit that somebody set, to its last digit: 2.5 % must not be written as 3 % beside a run of 2.7 % that it fails. */
export const limitPercent = (fraction: number) => plain(Number((fraction * 100).toPrecision(12)));
export const temperature = (celsius: number) => fixed(celsius, 1);

const dlcoDecimals: Record<DlcoUnit, number> = { 'mL/min/mmHg': 2, 'mmol/min/kPa': 3 };
export const dlco = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit]);
export const signedDlco = (value: number, unit: DlcoUnit) => signed(value, dlcoDecimals[unit]);
/** As it was typed, where that has more decimals: 0.497 lies below 0.5, and must not be written as 0.50 beside it. */
export const dlcoTyped = (value: number, unit: DlcoUnit) =>
  decimalsOf(value) > dlcoDecimals[unit] ? plain(value) : dlco(value, unit);
const decimalsOf = (value: number) => String(value).split('.')[1]?.length ?? 0;
export const dlcoMean = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit] + 1);
export const dlcoSd = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit] + 2);

/** A number as its shortest text, for typed values that are shown again digit for digit. */
export const plain = (value: number) => marked(value < 0 ? `${minus}${Math.abs(value)}` : String(value));
/** The same as a field to type in holds it: with the minus of the keyboard. */
export const inField = (value: number) => marked(String(value));

/**
 * By the clocks of the given zone, or of this workstation's. Where this browser does not know the zone, as an entry of
 * another workstation may name a newer one, by UTC, which is then written beside it.
 */
function byClock(
  instant: string | number,
  zone: string | undefined,
  write: (clock: WallClock) => string,
): string {
  if (zone === undefined) return write(localClock(instant));
  const at = new Date(instant).getTime();
  let clock: WallClock;
  try {
    clock = wallClockOf(at, zone);
  } catch {
    return `${write(wallClockOf(at, 'UTC'))} UTC`;
  }
  return write(clock);
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Each form of a date, whole and without its year or its day. */
const datePatterns: Record<Writing['dateForm'], { day: string; dayInYear: string; month: string }> = {
  'd-mon-yyyy': { day: 'd mon yyyy', dayInYear: 'd mon', month: 'mon yyyy' },
  'yyyy-mm-dd': { day: 'yyyy-mm-dd', dayInYear: 'mm-dd', month: 'yyyy-mm' },
  'dd.mm.yyyy': { day: 'dd.mm.yyyy', dayInYear: 'dd.mm.', month: 'mm.yyyy' },
  'dd/mm/yyyy': { day: 'dd/mm/yyyy', dayInYear: 'dd/mm', month: 'mm/yyyy' },
  'mm/dd/yyyy': { day: 'mm/dd/yyyy', dayInYear: 'mm/dd', month: 'mm/yyyy' },
};

function inDateForm(
  part: 'day' | 'dayInYear' | 'month',
  on: Pick<WallClock, 'year' | 'month' | 'day'>,
): string {
  const written: Record<string, string | undefined> = {
    yyyy: padded(on.year, 4),
    mon: months[on.month - 1],
    mm: padded(on.month),
    dd: padded(on.day),
    d: String(on.day),
  };
  const pattern = datePatterns[writingInForce().dateForm][part];
  return pattern.replace(/yyyy|mon|mm|dd|d/g, (word) => written[word] ?? '');
}

function inClockForm({ hour, minute }: WallClock): string {
  return writingInForce().clock === '24'
    ? `${padded(hour)}:${padded(minute)}`
    : `${hour % 12 || 12}:${padded(minute)} ${hour < 12 ? 'am' : 'pm'}`;
}

/** `3 Mar 2026, 08:14`. */
export const dayAndTime = (instant: string | number, zone?: string) =>
  byClock(instant, zone, (clock) => `${inDateForm('day', clock)}, ${inClockForm(clock)}`);
export const day = (instant: string | number, zone?: string) =>
  byClock(instant, zone, (clock) => inDateForm('day', clock));
export const timeOfDay = (instant: string | number, zone?: string) => byClock(instant, zone, inClockForm);
/** `3 Mar`, where the year goes without saying. */
export const dayInYear = (instant: string | number) =>
  byClock(instant, undefined, (clock) => inDateForm('dayInYear', clock));
/** `Mar 2026`. */
export const month = (instant: string | number) =>
  byClock(instant, undefined, (clock) => inDateForm('month', clock));

/**
 * A civil date without a zone, `2026-03-03`, as `3 Mar 2026`.
 * @throws {RangeError} if it is none.
 */
export const civilDay = (date: string) => inDateForm('day', calendarDay('civilDay', date));
/**
 * The same where its year goes without saying, `3 Mar`.
 * @throws {RangeError} if it is none.
 */
export const civilDayInYear = (date: string) => inDateForm('dayInYear', calendarDay('civilDayInYear', date));

function calendarDay(caller: string, date: string): Pick<WallClock, 'year' | 'month' | 'day'> {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date);
  if (parts === null) throw new RangeError(`${caller}: ${date} is no date such as 2026-03-03`);
  const [year = 0, monthOfYear = 0, dayOfMonth = 0] = parts.slice(1).map(Number);
  return { year, month: monthOfYear, day: dayOfMonth };
}

/** `1 run`, `12 runs`. */
export const counted = (count: number, one: string, many = `${one}s`) =>
  `${count} ${count === 1 ? one : many}`;
