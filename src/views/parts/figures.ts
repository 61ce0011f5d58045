/**
 * How numbers and times are written on every screen: one precision per quantity, a true minus sign, no locale.
 * Decimals follow what the reading can carry: VA 2 as typed and 3 as computed, DLCO 2 or 3 by its unit.
 */
import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns';

import type { DlcoUnit } from '../../core/index.ts';

const minus = '−';

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const isZero = Number(text) === 0;
  return text.startsWith('-') ? `${isZero ? '' : minus}${text.slice(1)}` : text;
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
export const signedMillilitres = (ml: number) => signed(ml, 0);
export const factor = (value: number) => fixed(value, 4);
export const zInTable = (z: number) => signed(z, 2);
export const zOnChart = (z: number) => signed(z, 1);
export const signedPercent = (fraction: number, decimals = 1) => signed(fraction * 100, decimals);
export const percent = (fraction: number, decimals = 1) => fixed(fraction * 100, decimals);
export const temperature = (celsius: number) => fixed(celsius, 1);

const dlcoDecimals: Record<DlcoUnit, number> = { 'mL/min/mmHg': 2, 'mmol/min/kPa': 3 };
export const dlco = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit]);
/** As it was typed, where that has more decimals: 0.497 lies below 0.5, and must not be written as 0.50 beside it. */
export const dlcoTyped = (value: number, unit: DlcoUnit) =>
  decimalsOf(value) > dlcoDecimals[unit] ? plain(value) : dlco(value, unit);
const decimalsOf = (value: number) => String(value).split('.')[1]?.length ?? 0;
export const dlcoMean = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit] + 1);
export const dlcoSd = (value: number, unit: DlcoUnit) => fixed(value, dlcoDecimals[unit] + 2);

/** A number as its shortest text, for typed values that are shown again digit for digit. */
export const plain = (value: number) => (value < 0 ? `${minus}${Math.abs(value)}` : String(value));

/**
 * By the clocks of the given zone, or of this workstation's. Where this browser does not know the zone, as an entry of
 * another workstation may name a newer one, by UTC, which is then written beside it.
 */
function byClock(instant: string | number, zone: string | undefined, pattern: string): string {
  const at = new Date(instant);
  if (zone === undefined) return format(at, pattern);
  const local = new TZDate(at, zone);
  return Number.isNaN(local.getTime())
    ? `${format(new TZDate(at, 'UTC'), pattern)} UTC`
    : format(local, pattern);
}

/** `3 Mar 2026, 08:14`. */
export const dayAndTime = (instant: string | number, zone?: string) =>
  byClock(instant, zone, 'd MMM yyyy, HH:mm');
export const day = (instant: string | number, zone?: string) => byClock(instant, zone, 'd MMM yyyy');
export const timeOfDay = (instant: string | number, zone?: string) => byClock(instant, zone, 'HH:mm');
/** A civil date without a zone, `2026-03-03`, as `3 Mar 2026`. */
export const civilDay = (date: string) => format(new Date(`${date}T12:00:00`), 'd MMM yyyy');

/** `1 run`, `12 runs`. */
export const counted = (count: number, one: string, many = `${one}s`) =>
  `${count} ${count === 1 ? one : many}`;

const byteUnits = ['bytes', 'kB', 'MB', 'GB', 'TB'] as const;

/** Bytes in the largest unit that leaves a whole number before the point: `1.5 MB`, by thousands as disks are sold. */
export function fileSize(bytes: number): string {
  let value = bytes;
  let unit = 0;
  while (value >= 999.5 && unit < byteUnits.length - 1) {
    value /= 1000;
    unit += 1;
  }
  return `${fixed(value, unit === 0 || value >= 99.95 ? 0 : 1)} ${byteUnits[unit]}`;
}
