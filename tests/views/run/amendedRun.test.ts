import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { formerValues } from '../../../src/views/amendments.ts';
import { assessEach } from '../../../src/views/assessEach.ts';
import { fieldsOf } from '../../../src/views/run/describeRun.ts';
import { historyOfRun } from '../../../src/views/run/runHistory.ts';
import { verdictLines } from '../../../src/views/run/verdictLines.ts';
import { shownJudgement, struckJudgement } from '../../../src/views/verdictOfTheDay.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { closure, draft, ids, laboratoryDrafts, run, tenGoodRuns, theRun } from '../laboratory.ts';
import { amendment, content, judged } from './runFixtures.ts';

async function journal(drafts: readonly EntryDraft[]) {
  const entries = await sealChain([...laboratoryDrafts(), ...drafts], { from: '2026-01-05T08:00:00.000Z' });
  const logbook = foldJournal(entries);
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  return { entries, logbook, assessments };
}
const failed = () => run(0, 3.4, { judged: judged('fail', 3.4) });

describe('what amendments replaced', () => {
  it('is every value in turn, with the initials and the time of who replaced it', async () => {
    const { logbook } = await journal([
      failed(),
      amendment(0, content(0, 3.3)),
      amendment(0, content(0, 3.3, { dlco: 0.2 })),
      amendment(0, content(0, 3.4, { dlco: 0.2 })),
    ]);
    const va = formerValues(theRun(logbook, 0), logbook.technologists, ({ content: { reading } }) =>
      String(reading.vaL),
    );
    expect(va).toEqual([
      { value: '3.4', initials: 'IM', when: '5 Jan 2026, 09:04' },
      { value: '3.3', initials: 'IM', when: '5 Jan 2026, 09:06' },
    ]);
  });

  it('is nothing for a run that was never amended', async () => {
    const { logbook } = await journal([failed()]);
    expect(formerValues(theRun(logbook, 0), logbook.technologists, () => 'x')).toEqual([]);
  });
});

describe('the verdicts of an amended run', () => {
  it('are that of the day, struck through, and the amended one', async () => {
    const { logbook, assessments } = await journal([failed(), amendment(0, content(0, 3.04))]);
    const amended = theRun(logbook, 0);
    expect(struckJudgement(amended)?.word).toBe('fail');
    expect(shownJudgement(amended, assessments)?.word).toBe('pass');
    expect(amended.entry.body.judged).toEqual(judged('fail', 3.4));
    expect(verdictLines(amended, assessments, logbook.technologists)).toMatchObject([
      {
        occasion: 'On the day',
        when: '5 Jan 2026, 09:03, IM',
        judged: { word: 'fail', va: { value: 3.4 } },
        isStruck: true,
      },
      { occasion: 'As amended', when: '5 Jan 2026, 09:04, IM', judged: { word: 'pass' }, isStruck: false },
    ]);
  });

  it('leave that of the day unstruck where the amendment changed no word of it', async () => {
    const { logbook, assessments } = await journal([
      failed(),
      amendment(0, content(0, 3.5), { word: 'fail' }),
    ]);
    expect(struckJudgement(theRun(logbook, 0))).toBeNull();
    const lines = verdictLines(theRun(logbook, 0), assessments, logbook.technologists);
    expect(lines.map(({ isStruck }) => isStruck)).toEqual([false, false]);
  });

  // tenGoodRuns and then 3.2 L: z is 0.2 / 0.0216 = 9.3, so what was recorded as a pass fails today.
  it('end with today’s where the journal says something else by now', async () => {
    const { logbook, assessments } = await journal([
      ...tenGoodRuns(),
      run(10, 3.2, { judged: judged('pass', 3.2) }),
    ]);
    const lines = verdictLines(theRun(logbook, 10), assessments, logbook.technologists);
    expect(lines.map(({ occasion, judged: line }) => [occasion, line?.word])).toEqual([
      ['On the day', 'pass'],
      ['Today', 'fail'],
    ]);
  });

  it('are all struck through, and none is today’s, once the run is voided', async () => {
    const { logbook, assessments } = await journal([
      failed(),
      amendment(0, content(0, 3.04)),
      draft('run-voided', { runId: ids.run(0), reason: 'Hose loose' }),
    ]);
    const lines = verdictLines(theRun(logbook, 0), assessments, logbook.technologists);
    expect(lines.map(({ isStruck }) => isStruck)).toEqual([true, true]);
  });

  it('begin with none for an imported run', async () => {
    const imported = run(0, 3.04, { judged: null, origin: { kind: 'import', batchId: 'batch-one', row: 7 } });
    const { logbook, assessments } = await journal([imported]);
    expect(verdictLines(theRun(logbook, 0), assessments, logbook.technologists)).toMatchObject([
      { occasion: 'When imported', judged: null },
      { occasion: 'Today', judged: { word: 'pass' } },
    ]);
  });
});

describe('the history of a run', () => {
  const lines = async (drafts: readonly EntryDraft[]) => {
    const { entries, logbook } = await journal(drafts);
    const amended = theRun(logbook, 0);
    return historyOfRun(amended, entries, fieldsOf(logbook, amended.entry.zone));
  };

  it('tells each amendment against the one before it, and a void last', async () => {
    const history = await lines([
      failed(),
      run(1, 3),
      amendment(1, content(1, 3.1)),
      amendment(0, content(0, 3.3), { reason: 'Read wrongly.' }),
      amendment(0, content(0, 3.3, { comment: 'Cold room' }), { reason: 'Forgotten.' }),
      draft('run-voided', { runId: ids.run(1), reason: 'another run' }),
      draft('run-voided', { runId: ids.run(0), reason: 'Hose loose' }),
    ]);
    expect(history.map(({ what, reason, changes }) => [what, reason, changes])).toEqual([
      ['Recorded', '', []],
      ['Amended', 'Read wrongly.', [{ name: 'VA as reported', from: '3.40 L BTPS', to: '3.30 L BTPS' }]],
      ['Amended', 'Forgotten.', [{ name: 'Comment', from: '–', to: 'Cold room' }]],
      ['Voided', 'Hose loose', []],
    ]);
  });

  it('keeps the closure of a failure that the run no longer opens, since it was set aside', async () => {
    const history = await lines([
      failed(),
      run(1, 3.4),
      closure(1, '2026-01-05T08:30:00.000Z'),
      closure(0, '2026-01-05T08:30:00.000Z', ['va', 'dlco']),
      draft('run-set-aside', { runId: ids.run(0), isSetAside: true, reason: 'Hose loose' }),
    ]);
    expect(history.map(({ what, reason }) => [what, reason])).toEqual([
      ['Recorded', ''],
      ['Failure closed, VA, DLCO', 'Sample line replaced. The run after the repair lies inside.'],
      ['Set aside', 'Hose loose'],
    ]);
  });

  it('begins with the import that brought the run and ends with the void of it', async () => {
    const batch = (batchId: string): EntryDraft =>
      draft('runs-imported', {
        batchId,
        fileName: `${batchId}.csv`,
        fileHash: 'a'.repeat(64),
        rowsRead: 9,
        accepted: 9,
        refused: 0,
      });
    const history = await lines([
      batch('batch-one'),
      batch('batch-two'),
      run(0, 3.04, { judged: null, origin: { kind: 'import', batchId: 'batch-one', row: 7 } }),
      draft('import-voided', { batchId: 'batch-two', reason: 'another batch' }),
      draft('import-voided', { batchId: 'batch-one', reason: 'Wrong columns' }),
    ]);
    expect(history.map(({ what, reason }) => [what, reason])).toEqual([
      ['Imported from batch-one.csv', ''],
      ['Recorded from row 7 of the file', ''],
      ['Its import voided', 'Wrong columns'],
    ]);
  });
});
