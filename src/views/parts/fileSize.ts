import { marked } from './figures.ts';

const byteUnits = ['bytes', 'kB', 'MB', 'GB', 'TB'] as const;

/** Bytes in the largest unit that leaves a whole number before the point: `1.5 MB`, by thousands as disks are sold. */
export function fileSize(bytes: number): string {
  let value = bytes;
  let unit = 0;
  while (value >= 999.5 && unit < byteUnits.length - 1) {
    value /= 1000;
    unit += 1;
  }
  return `${marked(value.toFixed(unit === 0 || value >= 99.95 ? 0 : 1))} ${byteUnits[unit]}`;
}
