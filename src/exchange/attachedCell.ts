/** What was left on the syringe for a run, as one cell that a person can read and the import reads back. */
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { Attachment } from '../journal/entries.ts';
import { recordedNumber } from './csvCells.ts';

/** `Filter (40 mL); Hose (85 mL)`. A semicolon or backslash of a name has a backslash before it. */
export function attachedCell(attached: readonly Attachment[] | undefined): string | undefined {
  return attached
    ?.map(({ name, volumeL }) => {
      const millilitres = recordedNumber(withoutBinaryNoise(volumeL * 1000));
      return `${name.replace(/[\\;]/g, '\\$&')} (${millilitres} mL)`;
    })
    .join('; ');
}

const mostAttached = 6;
const longestName = 120;
/** Up to a semicolon that no backslash stands before. */
const parts = /(?:[^\\;]|\\.)+/gs;
const nameAndVolume = /^(.+) \((\d+(?:\.\d+)?) mL\)$/s;

/** Undefined where the cell is not written as `attachedCell` writes it. */
export function readAttachedCell(text: string): Attachment[] | undefined {
  const found = text.match(parts) ?? [];
  const attached = found.flatMap((part): Attachment[] => {
    const [, escaped, millilitres] = nameAndVolume.exec(part.trim()) ?? [];
    if (escaped === undefined || millilitres === undefined) return [];
    const name = escaped.replace(/\\(.)/gs, '$1');
    const volumeL = withoutBinaryNoise(Number(millilitres) / 1000);
    return name.length <= longestName && volumeL <= 1 ? [{ name, volumeL }] : [];
  });
  const isWhole = attached.length === found.length && attached.length > 0 && attached.length <= mostAttached;
  return isWhole ? attached : undefined;
}
