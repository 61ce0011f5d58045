/** The laboratory's barometer against one that is known to be right. Pure. */
import { type AgainstReference, barometerCheck } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import { readNumber } from '../parts/readNumber.ts';
import { pressureSpec } from '../runForm/quantities.ts';
import type { BarometerDraft } from './checkDraft.ts';
import { type FiguresRead, isBlank, neededMessage } from './readFigures.ts';

type BarometerReading = NonNullable<EntryBody<'check-done'>['barometer']>;

export interface BarometerErrors {
  read?: string;
  reference?: string;
}

export function readBarometer(
  draft: BarometerDraft,
  limitFraction: number,
): FiguresRead<BarometerReading, AgainstReference, BarometerErrors> {
  if (isBlank(draft.read) && isBlank(draft.reference)) {
    return { figures: null, judged: null, errors: {}, isWhole: true };
  }
  const { unit } = draft;
  const read = readNumber(draft.read, pressureSpec(unit));
  const reference = readNumber(draft.reference, pressureSpec(unit));
  if (read.state === 'number' && reference.state === 'number') {
    const figures = { unit, read: read.value, reference: reference.value, limitFraction };
    return { figures, judged: barometerCheck(figures), errors: {}, isWhole: true };
  }
  const readError = neededMessage(read, 'Type what the laboratory’s barometer read.');
  const referenceError = neededMessage(reference, 'Type what the reference read.');
  return {
    figures: null,
    judged: null,
    errors: {
      ...(readError && { read: readError }),
      ...(referenceError && { reference: referenceError }),
    },
    isWhole: false,
  };
}
