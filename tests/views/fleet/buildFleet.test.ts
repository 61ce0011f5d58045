import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { noticeHref } from '../../../src/views/deskRoutes.ts';
import { listFailures, openFailures } from '../../../src/views/failures.ts';
import { buildFleet } from '../../../src/views/fleet/buildFleet.ts';
import { investigationHref, runHref } from '../../../src/views/routes.ts';
import { buildToday } from '../../../src/views/today/buildToday.ts';
import { serviceSet } from '../checkDrafts.ts';
import { failing, goodWeeks, room5, room7, threeAnalyzers } from '../investigationFixtures.ts';
import { draft, ids, opened, run, week } from '../laboratory.ts';

const zone = 'Europe/Oslo';
const on = (analyzerId: string) => ({ analyzerId });
/** Thursday of week 10, when weekly runs of its Monday are due again in four days. */
const thursday = Date.parse(week(10)) + 3 * 86_400_000;

async function fleet(drafts: readonly EntryDraft[], now = thursday) {
  const { logbook, assessments } = await opened(drafts, threeAnalyzers());
  const open = openFailures(listFailures(logbook, assessments));
  return { ...buildFleet(logbook, assessments, open, now, zone), logbook, open };
}

/** Room 2 failed, Room 5 is overdue by three days, Room 7 was run in time. */
const oneOfEach = () => [
  ...goodWeeks(0),
  ...goodWeeks(100, on(room5)),
  ...goodWeeks(200, on(room7)),
  failing(3.12),
  run(210, 3.0, { ...on(room7), madeAt: week(10) }),
];

const namesOf = (rows: readonly { analyzer: string; series: { name: string } | null }[]) =>
  rows.map(({ analyzer, series }) => `${analyzer}: ${series?.name ?? 'no run'}`);

const ofRoom2 = (rows: Awaited<ReturnType<typeof fleet>>['rows']) =>
  rows.flatMap(({ analyzer, series }) => (analyzer === 'Room 2' && series !== null ? [series.name] : []));

describe('buildFleet', () => {
  it('has a row for each series, in the order of Today, the failing series of an analyzer first', async () => {
    const { rows, logbook, open } = await fleet(oneOfEach());
    expect(namesOf(rows)).toEqual([
      'Room 2: VA, patient test',
      'Room 2: DLCO, patient test',
      'Room 5: VA, patient test',
      'Room 5: DLCO, patient test',
      'Room 7: VA, patient test',
      'Room 7: DLCO, patient test',
    ]);
    const today = buildToday(logbook, open, thursday, zone).lines.map(({ name }) => name);
    expect([...new Set(rows.map(({ analyzer }) => analyzer))]).toEqual(today);
  });

  it('puts the worse of two series first, whichever quantity it is', async () => {
    const { rows } = await fleet([...goodWeeks(0), failing(3.0)]);
    expect(ofRoom2(rows)).toEqual(['VA, patient test', 'DLCO, patient test']);
    const dlco = { reading: { vaL: 3, vaReportedAs: 'BTPS', dlco: 0.6, dlcoUnit: 'mL/min/mmHg' } } as const;
    const { rows: moved } = await fleet([...goodWeeks(0), failing(3.0, dlco)]);
    expect(ofRoom2(moved)).toEqual(['DLCO, patient test', 'VA, patient test']);
  });

  it('says of the last run its verdict, its z, its age and the failure that it opened', async () => {
    const { rows } = await fleet(oneOfEach());
    // By hand: (3.12 − 3.000) / 0.021602, the SD of the ten good runs.
    expect(rows[0]?.series).toMatchObject({
      mark: 'fail',
      markWord: 'Fail',
      zWords: '+5.55',
      failure: { since: '16 Mar 2026', href: investigationHref(ids.run(10)) },
      last: { words: '3 days ago', days: 3, href: runHref(ids.run(10)) },
      noticeHref: noticeHref(ids.analyzer),
      // λ of the default policy is 0.2: 0.2 · 5.555 SD, beyond 2.86 · √(0.2/1.8) = 0.953.
      drift: { words: 'Moved high', size: '+1.1 SD', hasMoved: true },
    });
    expect(rows[1]?.series).toMatchObject({ mark: 'pass', failure: null });
  });

  it('says that own limits are missing where they are', async () => {
    const { rows, summary } = await fleet([run(0, 3)]);
    expect(rows.find(({ analyzer }) => analyzer === 'Room 2')?.series).toMatchObject({
      mark: 'establishing',
      markWord: 'No own limits',
      zWords: '–',
      drift: { words: 'Not known yet' },
    });
    expect(summary).toBe('Last runs of 2 series: 2 without own limits. No failure is open.');
  });

  it('counts the last runs by their verdict, and the open failures', async () => {
    const { summary } = await fleet(oneOfEach());
    // Room 5 has its ten good runs and none that was judged by them.
    expect(summary).toBe(
      'Last runs of 6 series: 1 failed, 2 without own limits, 3 passed. Open failures: 1.',
    );
  });

  it('says when the next run is due, and that an analyzer is out of service', async () => {
    const { rows } = await fleet([...oneOfEach(), serviceSet(false, week(9), room5)]);
    const due = (name: string) => rows.find(({ analyzer }) => analyzer === name)?.due;
    expect(due('Room 7')).toEqual({ words: 'Mon 23 Mar', isUrgent: false, on: '2026-03-23' });
    expect(due('Room 5')).toMatchObject({ words: 'Out of service', isUrgent: false });
    const { rows: overdue } = await fleet(oneOfEach());
    expect(overdue.find(({ analyzer }) => analyzer === 'Room 5')?.due).toEqual({
      words: 'Overdue since Mon 16 Mar',
      isUrgent: true,
      on: '2026-03-16',
    });
  });

  it('lists an analyzer without a run, leaves out voided runs, and counts the retired ones', async () => {
    const { rows, retired } = await fleet([
      run(0, 3),
      run(1, 3.5),
      draft('run-voided', { runId: ids.run(1), reason: 'Wrong syringe.' }),
      draft('analyzer-retired', { analyzerId: room7, reason: 'Worn out.' }),
    ]);
    expect(rows.find(({ analyzer }) => analyzer === 'Room 5')?.series).toBeNull();
    expect(rows.some(({ analyzer }) => analyzer === 'Room 7')).toBe(false);
    expect(rows.find(({ series }) => series?.name === 'VA, patient test')?.series).toMatchObject({
      mark: 'establishing',
      last: { href: runHref(ids.run(0)) },
    });
    expect(retired).toBe(1);
  });

  it('keeps the routes and gases of one analyzer apart', async () => {
    const { rows } = await fleet([
      run(0, 3),
      run(1, 3, { route: 'built-in' }),
      run(2, 3, { method: 'precision-gas' }),
    ]);
    expect(ofRoom2(rows)).toEqual([
      'VA, patient test',
      'DLCO, patient test',
      'VA, built-in routine',
      'DLCO, built-in routine',
      'VA, patient test, precision gas',
      'DLCO, patient test, precision gas',
    ]);
  });
});
