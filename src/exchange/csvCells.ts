/** How one value is written in a CSV cell, whatever program and locale will open it. */
import { TZDate } from '@date-fns/tz';
import { wholeMinutesAhead } from './zoneOffsets.ts';

/** A spreadsheet takes a cell that begins like this for a formula, and would run it. */
const formulaStart = /^[=+\-@\t\r]/;

/**
 * A text as a cell: what a spreadsheet would run gets an apostrophe in front, and a NUL, at which many programs stop
 * reading a file, becomes the replacement character. For texts only: a negative number is no formula.
 */
export function textCell(text: string): string {
  const readable = text.includes('\0') ? text.replaceAll('\0', '\uFFFD') : text;
  return formulaStart.test(readable) ? `'${readable}` : readable;
}

/**
 * A number digit for digit as it was recorded, without an exponent; empty where there is none. What an absurd reading makes
 * infinite is written as the Table Schema standard has it.
 */
export function recordedNumber(value: number | null | undefined): string {
  if (value === null || value === undefined) return '';
  if (!Number.isFinite(value)) return Number.isNaN(value) ? 'NaN' : value > 0 ? 'INF' : '-INF';
  return withoutExponent(String(value));
}

/** Enough to compute z again from value, mean and SD to the third decimal. */
const computedDecimals = 6;
const negativeZero = '-0.000000';

/** A computed number with six decimals, without an exponent or a negative zero; empty where there is none. */
export function computedNumber(value: number | null | undefined): string {
  if (value === null || value === undefined) return '';
  const text = withoutExponent(value.toFixed(computedDecimals));
  return text === negativeZero ? text.slice(1) : text;
}

/** Moves the point of `1.5e-7` or `1e+21` to where it belongs. */
function withoutExponent(text: string): string {
  if (!text.includes('e')) return text;
  const scientific = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text);
  if (scientific === null) return text;
  const [, sign = '', whole = '', fraction = '', exponent = '0'] = scientific;
  const digits = whole + fraction;
  const point = whole.length + Number(exponent);
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  if (point >= digits.length) return `${sign}${digits.padEnd(point, '0')}`;
  return `${sign}${digits.slice(0, point)}.${digits.slice(point)}`;
}

/**
 * An instant as local time with its offset, `2026-03-02T08:45:00.000+01:00`, by the rules of `zone` on that day. In UTC
 * where this browser does not know the zone: the instant is the same.
 */
export function timeCell(instant: string, zone: string): string {
  const ms = Date.parse(instant);
  const ahead = wholeMinutesAhead(ms, zone);
  if (ahead !== undefined) return localText(ms, ahead);
  const local = new TZDate(ms, zone);
  return Number.isNaN(local.getTime()) ? instant.replace(/Z$/, '+00:00') : local.toISOString();
}

function localText(ms: number, minutesAhead: number): string {
  const distance = Math.abs(minutesAhead);
  const twoDigits = (value: number) => String(value).padStart(2, '0');
  const offset = `${twoDigits(Math.floor(distance / 60))}:${twoDigits(distance % 60)}`;
  const clock = new Date(ms + minutesAhead * 60_000).toISOString().slice(0, -1);
  return `${clock}${minutesAhead < 0 ? '-' : '+'}${offset}`;
}

export const truthCell = (value: boolean) => (value ? 'true' : 'false');
