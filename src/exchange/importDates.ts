/** Dates and times of day as spreadsheets write them. Which number is the day is never decided here. */
import { TZDate } from '@date-fns/tz';
import { isRecordableYear } from '../journal/plausible.ts';

export type DateOrder = 'DMY' | 'MDY' | 'YMD';

/** What a column's dates say about their order, counted. */
export interface DateCounts {
  /** Year first, the name of a month, or an instant with its offset: only one reading is possible. */
  clear: number;
  /** The first number is above 12 and the second not: day, month, year. */
  dayFirst: number;
  /** The second number is above 12 and the first not. */
  monthFirst: number;
  /** Both could be either. */
  either: number;
  other: number;
}

interface Parts {
  year: number;
  month: number;
  day: number;
  time: TimeOfDay | null;
  /** Minutes east of UTC, where the text says so. */
  offset: number | null;
}

export interface TimeOfDay {
  hour: number;
  minute: number;
  second: number;
  millisecond: number;
}

/** Numbers whose meaning waits for the order. */
interface Numbers {
  numbers: readonly [number, number, number];
  yearDigits: number;
  time: TimeOfDay | null;
}

type Taken = { kind: 'clear'; parts: Parts } | { kind: 'numbers'; read: Numbers } | null;

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
/** What the neighbours write; the rest begin with the same three letters. */
const otherMonths: Readonly<Record<string, number>> = { mai: 5, maj: 5, okt: 10, des: 12, dez: 12, mär: 3 };

const timePattern = String.raw`(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,](\d{1,3})\d*)?)?\s*([ap]\.?m\.?)?`;
const offsetPattern = String.raw`\s*(z|[+-]\d{2}:?\d{2})?`;
const tail = String.raw`(?:[T,\s]\s*${timePattern}${offsetPattern})?$`;
const yearFirstText = new RegExp(String.raw`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\.?${tail}`, 'i');
const compactText = /^(\d{4})(\d{2})(\d{2})$/;
const numbersText = new RegExp(String.raw`^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4}|\d{2})\.?${tail}`, 'i');
const dayNamedText = new RegExp(String.raw`^(\d{1,2})[-\s.]*(\p{L}{3,9})[-\s.,]*(\d{4}|\d{2})${tail}`, 'iu');
const monthNamedText = new RegExp(
  String.raw`^(\p{L}{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})${tail}`,
  'iu',
);
const timeText = new RegExp(`^${timePattern}$`, 'i');
const weekday = /^(mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+/i;

/** Longer texts are no dates; a pattern must not be tried on ten megabytes. */
const longestDate = 60;

function take(text: string): Taken {
  if (text.length > longestDate) return null;
  const trimmed = text.trim().replace(weekday, '');
  const yearFirst = yearFirstText.exec(trimmed) ?? compactText.exec(trimmed);
  if (yearFirst) {
    const [, year, month, day, ...rest] = yearFirst;
    return clear(Number(year), Number(month), Number(day), rest);
  }
  const plain = numbersText.exec(trimmed);
  if (plain) {
    const [, one, two, three = '', ...rest] = plain;
    const clock = timeOf(rest);
    if (clock === undefined || rest[5] !== undefined) return null;
    const numbers = [Number(one), Number(two), Number(three)] as const;
    return { kind: 'numbers', read: { numbers, yearDigits: three.length, time: clock } };
  }
  const dayNamed = dayNamedText.exec(trimmed);
  if (dayNamed) {
    const [, day, name = '', year = '', ...rest] = dayNamed;
    return clear(fullYear(year), monthOf(name), Number(day), rest);
  }
  const monthNamed = monthNamedText.exec(trimmed);
  if (monthNamed) {
    const [, name = '', day, year = '', ...rest] = monthNamed;
    return clear(fullYear(year), monthOf(name), Number(day), rest);
  }
  return null;
}

function clear(year: number, month: number, day: number, rest: readonly (string | undefined)[]): Taken {
  const time = timeOf(rest);
  if (time === undefined) return null;
  return { kind: 'clear', parts: { year, month, day, time, offset: offsetOf(rest[5]) } };
}

function monthOf(name: string): number {
  const short = name.normalize('NFC').toLowerCase().slice(0, 3);
  return otherMonths[short] ?? months.indexOf(short) + 1;
}

/** No laboratory's history is older than the test: two digits are a year of this century. */
const fullYear = (digits: string) => (digits.length === 2 ? 2000 + Number(digits) : Number(digits));

/** Null where no time is given, undefined where it is none. */
function timeOf(parts: readonly (string | undefined)[]): TimeOfDay | null | undefined {
  const [hours, minutes, seconds = '0', fraction = '', half] = parts;
  if (hours === undefined || minutes === undefined) return null;
  let hour = Number(hours);
  const minute = Number(minutes);
  const second = Number(seconds);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (/^p/i.test(half) ? 12 : 0);
  }
  if (hour > 23 || minute > 59 || second > 59) return undefined;
  return { hour, minute, second, millisecond: Number(fraction.padEnd(3, '0')) };
}

function offsetOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  if (/^z$/i.test(text)) return 0;
  const minutes = Number(text.slice(1, 3)) * 60 + Number(text.slice(-2));
  return text.startsWith('-') ? -minutes : minutes;
}

/** In which way a text is a date; `other` for one that is none. */
export function dateKindOf(text: string): keyof DateCounts {
  const taken = take(text);
  if (taken === null) return 'other';
  if (taken.kind === 'clear') return 'clear';
  const [one, two] = taken.read.numbers;
  if (one > 12) return two > 12 ? 'other' : 'dayFirst';
  return two > 12 ? 'monthFirst' : 'either';
}

export type ReadDate = { state: 'date'; parts: Parts } | { state: 'wrong'; message: string };

const wrong = (message: string): ReadDate => ({ state: 'wrong', message });

const orderWords: Record<DateOrder, string> = {
  DMY: 'day, month, year',
  MDY: 'month, day, year',
  YMD: 'year, month, day',
};

/** Reads a date, with or without a time of day. `order` is used only where the text leaves it open. */
export function readDate(text: string, order: DateOrder | null): ReadDate {
  const shown = `“${text.trim().slice(0, 40)}”`;
  const taken = take(text);
  if (taken === null) {
    return /^\s*\d{5}([.,]\d+)?\s*$/.test(text)
      ? wrong(
          `${shown} is a spreadsheet’s number for a day, not a date. Give the column a date format and save it again.`,
        )
      : wrong(`${shown} is not a date that can be read.`);
  }
  const parts = taken.kind === 'clear' ? taken.parts : inOrder(taken.read, order);
  if (parts === null) {
    return wrong(
      order === null
        ? `${shown}: which number is the day has not been chosen.`
        : `${shown} is no date in the order ${orderWords[order]}.`,
    );
  }
  return isDay(parts) ? { state: 'date', parts } : wrong(`${shown} is no day of the calendar.`);
}

function inOrder({ numbers, yearDigits, time }: Numbers, order: DateOrder | null): Parts | null {
  const [one, two, three] = numbers;
  const year = (value: number, digits: number) => (digits === 2 ? 2000 + value : value);
  const rest = { time, offset: null };
  switch (order) {
    case 'DMY':
      return two > 12 ? null : { year: year(three, yearDigits), month: two, day: one, ...rest };
    case 'MDY':
      return one > 12 ? null : { year: year(three, yearDigits), month: one, day: two, ...rest };
    case 'YMD':
      return yearDigits === 4 || two > 12 ? null : { year: 2000 + one, month: two, day: three, ...rest };
    case null:
      return null;
  }
}

function isDay({ year, month, day }: Parts): boolean {
  if (!isRecordableYear(year) || month < 1 || month > 12 || day < 1) return false;
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** A time of day in a cell of its own; null for a text that is none. */
export function readTime(text: string): TimeOfDay | null {
  if (text.length > longestDate) return null;
  const [, ...parts] = timeText.exec(text.trim()) ?? [];
  return parts.length > 0 ? (timeOf(parts) ?? null) : null;
}

export const noon: TimeOfDay = { hour: 12, minute: 0, second: 0, millisecond: 0 };

export interface Instant {
  ms: number;
  /** False for a time of day that the clocks jumped over. */
  exists: boolean;
}

const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;

/**
 * Makes instants of dates by the rules of one zone. Years of history have few days on which the clocks change: the
 * offset is asked of the zone once for each day, and for the day's own hours only where it differs from its neighbours'.
 */
export function instantsIn(zone: string): (parts: Parts, time: TimeOfDay) => Instant {
  const known = new Map<number, number>();
  const offsetAt = (ms: number) => new TZDate(ms, zone).getTimezoneOffset() * minuteMs;
  const offsetOn = (dayNumber: number) => {
    const offset = known.get(dayNumber) ?? offsetAt(dayNumber * dayMs);
    known.set(dayNumber, offset);
    return offset;
  };
  return ({ year, month, day, offset }, { hour, minute, second, millisecond }) => {
    const wall = Date.UTC(year, month - 1, day, hour, minute, second, millisecond);
    if (offset !== null) return { ms: wall - offset * minuteMs, exists: true };
    const dayNumber = Math.floor(wall / dayMs);
    const before = offsetOn(dayNumber - 1);
    const after = offsetOn(dayNumber + 2);
    if (before === after) return { ms: wall + before, exists: true };
    // The earlier of two where the hour comes twice.
    const fitting = [wall + before, wall + after].filter((ms) => ms + -offsetAt(ms) === wall);
    const [first] = fitting.sort((a, b) => a - b);
    return first === undefined ? { ms: wall + before, exists: false } : { ms: first, exists: true };
  };
}
