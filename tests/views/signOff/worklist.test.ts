import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import { assessEach } from '../../../src/views/assessEach.ts';
import { assessControls, listControlFailures } from '../../../src/views/controlAssessments.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { coverageOf } from '../../../src/views/signedOff.ts';
import { buildWorklist, type WorkPage } from '../../../src/views/signOff/buildWorklist.ts';
import {
  emptySignOff,
  missingForSignOff,
  nextPeriod,
  periodErrors,
  signOffBody,
} from '../../../src/views/signOff/readSignOff.ts';
import { analyzerAdded, sealChain } from '../../journal/fixtures.ts';
import { biological, judgedAs, session, subjectAdded } from '../controlDrafts.ts';
import { baseline, closure, draft, ids, laboratoryDrafts, run, tenGoodRuns, week } from '../laboratory.ts';

const period = { from: '2026-01-01', to: '2026-03-31' };

async function worklistOf(drafts: readonly EntryDraft[], during = period) {
  const entries = await sealChain([...laboratoryDrafts(), ...drafts], { from: '2026-03-02T08:00:00.000Z' });
  const logbook = foldJournal(entries);
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  const failures = listFailures(logbook, assessments);
  const coverage = coverageOf(entries, logbook.signOffs);
  const controlFailures = listControlFailures(logbook, assessControls(logbook));
  const worklist = buildWorklist(during, {
    logbook,
    entries,
    coverage,
    assessments,
    failures,
    controlFailures,
  });
  const page = (id: string): WorkPage => {
    const found = worklist.pages.find((one) => one.id === id);
    if (!found) throw new Error(`no page ${id}`);
    return found;
  };
  return { worklist, page, room2: page(ids.analyzer), failures };
}
const lines = ({ groups }: WorkPage) =>
  groups.map(({ title, lines: told }) => [title, told.map(({ sentence }) => sentence)]);

describe('buildWorklist', () => {
  it('puts what is about an analyzer on its page and the rest on the laboratory’s', async () => {
    const { room2, page } = await worklistOf([
      run(0, 3),
      draft('event-recorded', {
        eventId: 'event-one',
        analyzerId: ids.analyzer,
        happenedAt: week(0),
        type: 'part',
        description: 'Valve replaced.',
      }),
      draft('run-voided', { runId: ids.run(0), reason: 'Tap open.' }),
    ]);
    expect(lines(room2)).toEqual([
      ['Amended, voided, set aside', ['Voided the run of 5 Jan 2026, 09:00: Tap open.']],
      ['Events and service', ['Part replaced, 5 Jan 2026, 09:00: Valve replaced.']],
      ['People and equipment', ['Analyzer Room 2 added']],
    ]);
    expect(lines(page('laboratory'))).toEqual([
      ['People and equipment', ['Supervisor IM, Ilse Marong, added', 'Syringe Dedicated 3 L syringe added']],
    ]);
    expect(room2.runs.map(({ id }) => id)).toEqual([ids.run(0)]);
  });

  it('counts verdicts of the day, and voided and set aside runs apart', async () => {
    const aside = draft('run-set-aside', { runId: ids.run(2), isSetAside: true, reason: 'Trial.' });
    const { room2 } = await worklistOf([
      run(0, 3),
      run(1, 3),
      run(2, 3),
      draft('run-voided', { runId: ids.run(1), reason: 'Tap open.' }),
      aside,
    ]);
    expect(room2.passed).toBe('2 of 2 runs passed (100 %), 0 warned, 0 failed, 1 voided since, 1 set aside.');
  });

  it('sets mean, SD and CV of the new runs against the limits in force', async () => {
    // Ten runs of mean 3.000 L and SD 0.0216 L (laboratory.ts), and one more of 3.011 L.
    const { room2 } = await worklistOf([...tenGoodRuns(), run(10, 3.011)]);
    expect(room2.series[0]).toMatchObject({
      count: 11,
      mean: '3.001',
      baseline: '3.000 ± 0.0216 (10 runs)',
      off: '+1 mL, +0.05 SD',
      cv: '0.69 %',
      stretch: '',
    });
    expect(room2.series[1]).toMatchObject({ unit: 'mL/min/mmHg', cv: '–' });
  });

  it('never averages runs from both sides of a new baseline', async () => {
    const { room2 } = await worklistOf([...tenGoodRuns(), baseline(week(10)), run(10, 3.2)]);
    expect(room2.series.map(({ count, mean, stretch }) => [count, mean, stretch]).slice(0, 2)).toEqual([
      [10, '3.000', '5 Jan 2026 to 9 Mar 2026'],
      [1, '3.200', '16 Mar 2026 to 16 Mar 2026'],
    ]);
  });

  it('tells of a failure that a new run opened, of its closure, and of what is open', async () => {
    const closed = await worklistOf([run(0, 3.37), closure(0, week(1))]);
    expect(lines(closed.room2)[0]).toEqual([
      'Failures',
      ['Opened: VA, patient test', 'Closed VA, patient test: The run after the repair lies inside.'],
    ]);
    expect(closed.room2.openFailures).toEqual([]);
    expect((await worklistOf([run(0, 3.37)])).room2.openFailures).toHaveLength(1);
  });

  it('has a page for an analyzer about which nothing is new, with its weeks without a run', async () => {
    const { worklist, room2 } = await worklistOf([run(0, 3)], { from: '2026-01-01', to: '2026-01-31' });
    expect(worklist.listed).toEqual([]);
    expect(room2.count).toBe(0);
    expect(room2.gaps.map(({ from, to, weeks }) => [from, to, weeks])).toEqual([
      ['2026-01-12', '2026-01-25', 2],
    ]);
  });

  it('shows the reason that was given for weeks without a run, and none of another check or time', async () => {
    const why = (from: string, to: string, check: 'simulation' | 'linearity' = 'simulation') =>
      draft('gap-explained', {
        gapId: `gap-of-${check}-${from}`,
        analyzerId: ids.analyzer,
        check,
        from,
        to,
        reason: `Closed from ${from}.`,
      });
    const { room2 } = await worklistOf(
      [
        run(0, 3),
        why('2026-01-20', '2026-01-21'),
        why('2026-01-19', '2026-01-25', 'linearity'),
        why('2026-01-26', '2026-01-31'),
      ],
      { from: '2026-01-01', to: '2026-01-31' },
    );
    expect(room2.gaps.map(({ reasons }) => reasons)).toEqual([['Closed from 2026-01-20. (IM)']]);
  });

  it('counts the controls, names each with its verdict, and asks for their open failures to be seen', async () => {
    const tests = [24.6, 25.4, 24.8, 25.2, 24.9, 25.1].map((dlco, index) => biological(index, dlco));
    const off = biological(6, 28.5, { judged: judgedAs('fail', { withinPublished: false }) });
    const { worklist, room2 } = await worklistOf([subjectAdded(), ...tests, off, session(7, { low: 0.1 })]);
    expect(room2.controls).toBe('7 biological controls, 1 simulator session: 7 passed, 1 failed.');
    const [, told] = lines(room2)[0] ?? [];
    expect(told).toContain('Recorded the test of subject B1 of 16 Feb 2026, 10:00: fail');
    expect(lines(room2)[1]).toEqual(['Failures', ['Opened: DLCO, B1, biological control']]);
    expect(missingForSignOff(worklist, emptySignOff)).toContain(
      'The open failure of Room 2, DLCO of the biological control B1, is not ticked as seen.',
    );
  });

  it('looks for no run before the analyzer was there', async () => {
    const { page } = await worklistOf([
      run(0, 3),
      draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-new', label: 'Room 9' }),
    ]);
    // Added on Monday 2 March.
    expect(page('analyzer-new').gaps.map(({ from }) => from)).toEqual(['2026-03-02']);
  });

  it('says that nothing is new where there is only the last sign-off itself', async () => {
    const entries = await sealChain([...laboratoryDrafts(), run(0, 3)]);
    const head = entries.at(-1);
    if (!head) throw new Error('no entry');
    const signed = draft('period-signed', {
      signOffId: 'sign-off-one',
      from: '2026-03-01',
      to: '2026-03-02',
      analyzers: [],
      heads: [{ workstation: head.workstation, seq: head.seq, hash: head.hash }],
      comment: '',
      signature: null,
    });
    const all = await sealChain(
      entries.map(({ id, by, kind, body }) => ({ id, by, kind, body }) as EntryDraft).concat(signed),
    );
    const logbook = foldJournal(all);
    const { assessments } = assessEach(
      logbook.runs.map(({ simulation }) => simulation),
      logbook,
    );
    const worklist = buildWorklist(period, {
      logbook,
      entries: all,
      coverage: coverageOf(all, logbook.signOffs),
      assessments,
      failures: [],
      controlFailures: [],
    });
    expect(worklist).toMatchObject({ isNothingNew: true, listed: [{ kind: 'period-signed' }] });
  });
});

describe('readSignOff', () => {
  it('proposes the period from the first entry on, and then from the day after the last sign-off', async () => {
    expect(nextPeriod([], '2026-01-05', '2026-03-31')).toEqual({ from: '2026-01-05', to: '2026-03-31' });
    const signed = async (to: string) => {
      const body = {
        signOffId: `to-${to}`,
        from: '2026-01-05',
        to,
        analyzers: [],
        comment: '',
        signature: null,
      };
      const [entry] = await sealChain([
        draft('period-signed', {
          ...body,
          heads: [{ workstation: 'workstation-a', seq: 1, hash: '0'.repeat(64) }],
        }),
      ]);
      if (entry?.kind !== 'period-signed') throw new Error('not a sign-off');
      return entry;
    };
    const signOffs = [await signed('2026-02-28'), await signed('2026-01-31')];
    expect(nextPeriod(signOffs, '2026-01-05', '2026-03-31')).toEqual({
      from: '2026-03-01',
      to: '2026-03-31',
    });
    // Signed a second time on one day.
    expect(nextPeriod(signOffs, '2026-01-05', '2026-02-28')).toEqual({
      from: '2026-02-28',
      to: '2026-02-28',
    });
  });

  it('refuses a period that ends before it begins or after today, and one without a date', () => {
    const today = '2026-03-31';
    expect(periodErrors({ from: '2026-03-01', to: '2026-03-31' }, today)).toEqual({});
    expect(periodErrors({ from: '2026-03-02', to: '2026-03-01' }, today).from).toMatch(
      /begins after it ends/,
    );
    expect(periodErrors({ from: '2026-03-01', to: '2026-04-01' }, today).to).toMatch(/after today/);
    expect(periodErrors({ from: '', to: '2026-02-30' }, today)).toEqual({
      from: 'Choose a date.',
      to: 'Choose a date.',
    });
  });

  it('lists each page not looked through and each open failure not seen, and nothing once all is ticked', async () => {
    const { worklist, room2 } = await worklistOf([run(0, 3.37)]);
    expect(missingForSignOff(worklist, emptySignOff)).toEqual([
      'Room 2 is not ticked as looked through.',
      'The open failure of Room 2, VA by patient test, is not ticked as seen.',
      'The laboratory is not ticked as looked through.',
    ]);
    const seen = [...worklist.pages.map(({ stamp }) => stamp), ...room2.openFailures.map(({ key }) => key)];
    expect(missingForSignOff(worklist, { ...emptySignOff, seen })).toEqual([]);
    // One more run of the failure: neither page nor failure is what was seen.
    const later = await worklistOf([run(0, 3.37), run(1, 3.37)]);
    expect(later.room2.stamp).not.toBe(room2.stamp);
    expect(missingForSignOff(later.worklist, { ...emptySignOff, seen })).toContain(
      'The open failure of Room 2, VA by patient test, is not ticked as seen.',
    );
  });

  it('signs the heads of what is listed, with each analyzer’s comment', async () => {
    const { worklist } = await worklistOf([run(0, 3)]);
    const body = signOffBody(period, worklist, {
      comment: ' Quiet months. ',
      comments: { [ids.analyzer]: ' Steady. ', laboratory: 'not kept' },
      seen: [],
    });
    expect(body).toEqual({
      ...period,
      analyzers: [{ analyzerId: ids.analyzer, comment: 'Steady.' }],
      heads: worklist.heads,
      comment: 'Quiet months.',
      signature: null,
    });
    expect(body.heads).toMatchObject([{ seq: 4 }]);
  });
});
