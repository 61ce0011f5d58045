/** Checks with figures as drafts, for the tests of their charts. */
import type { EntryBody, EntryDraft } from '../../../src/journal/entries.ts';
import { draft, ids, week } from '../laboratory.ts';

type Check = EntryBody<'check-done'>;

const noted = (index: number, changes: Partial<Check>): EntryDraft =>
  draft('check-done', {
    checkId: `check-number-${index}-${changes.check}`,
    check: 'volume-check',
    analyzerId: ids.analyzer,
    syringeId: null,
    technologistId: ids.supervisor,
    doneAt: week(index),
    outcome: 'passed',
    volume: null,
    validUntil: null,
    note: '',
    investigates: null,
    ...changes,
  });

/** Of week `index`, against 3.000 L with the published ±2.5 % (ATS laboratory manual, 3rd ed.). */
export const volumeCheck = (
  index: number,
  readL: readonly number[],
  outcome: Check['outcome'] = 'passed',
  flowLPerS?: number[],
) =>
  noted(index, {
    outcome,
    volume: { expectedL: 3, readL: [...readL], limitFraction: 0.025, ...(flowLPerS && { flowLPerS }) },
  });

export const volumeCheckInWords = (index: number) => noted(index, { outcome: 'noted', note: 'As usual' });

/** CO against dilutions of 0, 0.15 and 0.30 %, each read `off` per cent of full scale too high; ±0.5 % allowed. */
export const linearityOfCo = (index: number, off: readonly [number, number, number]) =>
  noted(index, {
    check: 'linearity',
    outcome: off.some((one) => Math.abs(one) > 0.5) ? 'failed' : 'passed',
    linearity: [
      {
        gas: 'CO',
        unit: '%',
        fullScale: 0.3,
        limitFraction: 0.005,
        points: off.map((one, place) => ({ expected: place * 0.15, read: place * 0.15 + one * 0.003 })),
      },
    ],
  });
