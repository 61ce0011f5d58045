/** What the readings of the settings' forms have in common. Pure. */
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';

/** A number that has to be typed, or the sentence that says what is wrong. */
export function readNeeded(
  text: string,
  spec: NumberSpec,
  empty: string,
): { value: number; message?: string } {
  const read = readNumber(text, spec);
  if (read.state === 'empty') return { value: Number.NaN, message: empty };
  if (read.state === 'wrong') return { value: Number.NaN, message: read.message };
  return { value: read.value };
}

/** The same for a count of something. */
export function readCount(
  text: string,
  spec: NumberSpec,
  empty: string,
): { value: number; message?: string } {
  const read = readNeeded(text, spec, empty);
  if (read.message !== undefined || Number.isSafeInteger(read.value)) return read;
  return {
    value: read.value,
    message: `“${text.trim()}” is not a whole number. Type the ${spec.name} as one.`,
  };
}
