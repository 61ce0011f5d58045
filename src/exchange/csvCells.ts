/** How one value is written in a CSV cell, whatever program and locale will open it. */
import { TZDate } from '@date-fns/tz';

/** A spreadsheet takes a cell that begins like this for a formula, and would run it. */
const formulaStart = /^[=+\-@\t\r]/;

/**
 * A text as a cell: what a spreadsheet would run gets an apostrophe in front, and a NUL, at which many programs stop
 * reading a file, becomes the replacement character. For texts only: a negative number is no formula.
 */
export function textCell(text: string): string {
  const readable = text.replaceAll('\0', '\uFFFD');
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

/** A computed number with six decimals, without an exponent or a negative zero; empty where there is none. */
export function computedNumber(value: number | null | undefined): string {
  if (value === null || value === undefined) return '';
  const text = withoutExponent(value.toFixed(computedDecimals));
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Moves the point of `1.5e-7` or `1e+21` to where it belongs. */
function withoutExponent(text: string): string {
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
  const local = new TZDate(Date.parse(instant), zone);
  return Number.isNaN(local.getTime()) ? instant.replace(/Z$/, '+00:00') : local.toISOString();
}

export const truthCell = (value: boolean) => (value ? 'true' : 'false');
