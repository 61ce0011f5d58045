import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { withdrawnFailures } from '../../../src/views/review/withdrawnFailures.ts';
import { draft, ids, opened, run, tenGoodRuns } from '../laboratory.ts';

const notJudged = { n: 0, mean: null, sd: null, z: null, signals: [] };
const failedOnItsDay = {
  word: 'fail' as const,
  establishing: false,
  failureOpen: true,
  va: { value: 3.6, ...notJudged },
  dlco: { value: 0.01, ...notJudged },
};

async function withdrawnOf(...drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened([...tenGoodRuns(), ...drafts]);
  return withdrawnFailures(logbook.runs, listFailures(logbook, assessments)).map(({ id }) => id);
}

/** 3.60 L is 600 mL from its target: outside the published 300 mL. */
const failing = (index: number) => run(index, 3.6, { judged: failedOnItsDay });
const voiding = (index: number) => draft('run-voided', { runId: ids.run(index), reason: 'Typed wrong.' });

describe('withdrawnFailures', () => {
  it('is empty while a failure tells of every run that failed', async () => {
    expect(await withdrawnOf(failing(10))).toEqual([]);
  });

  it('names a run that failed on its day and was voided, newest first', async () => {
    expect(await withdrawnOf(failing(10), failing(11), voiding(10), voiding(11))).toEqual([
      ids.run(11),
      ids.run(10),
    ]);
  });

  it('says nothing of a voided run that had passed', async () => {
    expect(await withdrawnOf(voiding(3))).toEqual([]);
  });
});
