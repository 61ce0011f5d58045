/** What the equipment's forms have in common in being read. Pure. */
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import { isRecordableYear } from '../../journal/plausible.ts';
import { inField, marked, plain } from '../parts/figures.ts';
import type { Errors } from '../parts/formReading.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';

export function readLabel<T extends { label: string }>(text: string, errors: Errors<T>): string {
  const label = text.trim();
  if (label === '') errors.label = 'Type a name that everyone in the laboratory uses.';
  if (label.length > 120) errors.label = 'The name is too long: 120 letters at most.';
  return label;
}

/** A date field's text: null where it was left empty. The browser lets a year of two or five digits pass. */
export function readDay(text: string): { date: string | null; message?: string } {
  if (text === '') return { date: null };
  const isDay = /^\d{4}-\d\d-\d\d$/.test(text) && isRecordableYear(Number(text.slice(0, 4)));
  return isDay
    ? { date: text }
    : { date: null, message: 'Type the date with a year of four digits, or leave it empty.' };
}

// Both to the last digit: what is opened to change something else must come back as it was.
export const litresInField = (litres: number) => {
  const text = litres.toFixed(2);
  return Number(text) === litres ? marked(text) : inField(litres);
};
/** 0.11035 · 1000 is 110.35000000000001. */
export const millilitresInField = (litres: number) => inField(withoutBinaryNoise(litres * 1000));

/** A volume typed in mL, in litres; `empty` says what to type where nothing was. */
export function readMillilitres(
  text: string,
  spec: Pick<NumberSpec, 'name' | 'example'>,
  empty: string,
): { litres: number; message?: string } {
  const read = readNumber(text, { ...spec, unit: 'mL', lowest: 0, highest: 1000 });
  if (read.state === 'empty') return { litres: 0, message: empty };
  if (read.state === 'wrong') return { litres: 0, message: read.message };
  if (read.value > 0 && read.value < 1) {
    const millilitres = Number((read.value * 1000).toPrecision(4));
    return { litres: 0, message: `${text} mL is next to nothing. Was ${plain(millilitres)} mL meant?` };
  }
  return { litres: read.value / 1000 };
}

export const readDeadSpaceMl = (text: string) =>
  readMillilitres(
    text,
    { name: 'dead space', example: '110' },
    'Type the dead space in mL; 0 if there is none.',
  );
