import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { assessControls, listControlFailures } from '../../../src/views/controlAssessments.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { withdrawnLines } from '../../../src/views/review/withdrawn.tsx';
import { withdrawnFailures } from '../../../src/views/review/withdrawnFailures.ts';
import { biological, controlId, judgedAs, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, opened, run, tenGoodRuns, week } from '../laboratory.ts';

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

describe('withdrawnControls', () => {
  const sixTests = [24.6, 25.4, 24.8, 25.2, 24.9, 25.1].map((dlco, index) => biological(index, dlco));
  /** 14 % above the mean of the six. */
  const off = biological(6, 28.5, { judged: judgedAs('fail', { withinPublished: false }) });
  async function namesOf(...drafts: readonly EntryDraft[]) {
    const { logbook } = await opened([subjectAdded(), ...sixTests, off, ...drafts]);
    const failures = listControlFailures(logbook, assessControls(logbook));
    return withdrawnLines(logbook, [], failures).map(({ href, what }) => [href, what]);
  }
  const page = `/control/made/${controlId(6)}`;
  const about = { controlId: controlId(6), reason: 'Had a cold.' };

  it('is empty while a failure tells of it', async () => {
    expect(await namesOf()).toEqual([]);
  });

  it('names a control that was voided, set aside, or whose person was excluded', async () => {
    expect(await namesOf(draft('control-voided', about))).toEqual([[page, 'control, voided']]);
    const aside = draft('control-set-aside', { ...about, isSetAside: true });
    expect(await namesOf(aside)).toEqual([[page, 'control, set aside']]);
    const excluded = draft('subject-state-set', {
      settingId: 'setting-of-blue',
      subjectId: subject,
      state: 'excluded',
      from: week(6),
      reason: 'Took up smoking.',
    });
    expect(await namesOf(excluded)).toEqual([[page, 'control, the person was excluded']]);
    const whileExcluded = biological(7, 28.5, { judged: { ...judgedAs('fail'), failureOpen: false } });
    expect(await namesOf(excluded, whileExcluded)).toHaveLength(1);
  });
});
