// @vitest-environment node
/** Dates are of the calendar of 2026, in which 5 January, week 0, is a Monday; the counts are made by hand. */
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import {
  buildLines,
  onTimeSentence,
  otherChecks,
  stripSentence,
} from '../../../src/views/completeness/buildCompleteness.ts';
import { byMonth, lapsesOf } from '../../../src/views/completeness/buildWeeks.ts';
import { periodChoices } from '../../../src/views/completeness/periods.ts';
import { readGap } from '../../../src/views/completeness/readGap.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { checkDone, scheduleSet, serviceSet } from '../checkDrafts.ts';
import { biological, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, laboratoryDrafts, opened, run, week } from '../laboratory.ts';
import { judged } from '../run/runFixtures.ts';

const zone = 'Europe/Oslo';
/** Sunday of week 8. */
const now = Date.parse('2026-03-08T12:00:00Z');
const period = { id: 'first', label: 'First', period: { from: '2026-01-05', to: '2026-03-08' } };

const explained = (from: string, to: string, changes = {}) =>
  draft('gap-explained', {
    gapId: `gap-from-${from}`,
    analyzerId: ids.analyzer,
    check: 'simulation',
    from,
    to,
    reason: 'The laboratory was closed.',
    ...changes,
  });

async function lineOf(drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened(drafts);
  const sources = { logbook, assessments, now, zone };
  const [line] = buildLines(period, sources);
  if (line === undefined) throw new Error('no analyzer is listed');
  return { line, sources, logbook };
}
const shapes = async (drafts: readonly EntryDraft[]) =>
  (await lineOf(drafts)).line.weeks.map(({ shape }) => shape);
const lapses = async (drafts: readonly EntryDraft[]) => {
  const { line, logbook } = await lineOf(drafts);
  return lapsesOf(line.weeks, logbook, '2026-03-08').map(({ kind, sentence, reasons }) => [
    kind,
    sentence,
    reasons.map(({ text, written }) => `${text} ${written}`),
  ]);
};

const runs = (...weeks: number[]) => weeks.map((index) => run(index, 3));

describe('the weeks of an analyzer', () => {
  it('each carry the mark of their verdict, the worst of several', async () => {
    const found = await shapes([
      run(0, 3),
      run(1, 3, { judged: judged('warn', 3) }),
      run(2, 3, { judged: judged('fail', 3) }),
      run(2.5, 3),
      ...runs(3, 4, 5, 6, 7, 8),
    ]);
    expect(found).toEqual(['pass', 'warn', 'fail', ...new Array(6).fill('pass')]);
  });

  it('without a run say so, with a reason by another mark', async () => {
    const made = runs(0, 1, 4, 5, 6, 7, 8);
    expect((await shapes(made)).slice(2, 4)).toEqual(['gap', 'gap']);
    expect((await shapes([...made, explained('2026-01-26', '2026-02-01')])).slice(2, 4)).toEqual([
      'gap',
      'explained',
    ]);
    const ofLinearity = explained('2026-01-26', '2026-02-01', { check: 'linearity' });
    expect((await shapes([...made, ofLinearity])).slice(2, 4)).toEqual(['gap', 'gap']);
  });

  it('take a voided run for none, and one that was set aside for made', async () => {
    const voided = draft('run-voided', { runId: ids.run(2), reason: 'Wrong gas.' });
    const aside = draft('run-set-aside', { runId: ids.run(3), isSetAside: true, reason: 'Wrong gas.' });
    expect((await shapes([...runs(0, 1, 2, 3, 4), voided, aside])).slice(2, 4)).toEqual(['gap', 'pass']);
  });

  it('out of service, and before the analyzer came, are no gaps', async () => {
    const out = [serviceSet(false, week(1.5)), serviceSet(true, week(4))];
    const found = await lineOf([...runs(0, 1, 4, 5, 6, 7, 8), ...out]);
    expect(found.line.weeks.map(({ shape }) => shape).slice(1, 5)).toEqual([
      'pass',
      'paused',
      'paused',
      'pass',
    ]);
    expect(found.line.unexplained).toBe(0);
  });

  it('are named with what happened, late ones with when they were due', async () => {
    const { line } = await lineOf([run(0, 3), run(1, 3, { madeAt: '2026-01-14T08:00:00.000Z' }), ...runs(3)]);
    expect(line.weeks.slice(0, 3).map(({ name, words }) => `${name}: ${words}`)).toEqual([
      'Mon 5 Jan to Sun 11 Jan: Passed',
      'Mon 12 Jan to Sun 18 Jan: Late, was due Mon 12 Jan. Passed',
      'Mon 19 Jan to Sun 25 Jan: No run, no reason given, was due Wed 21 Jan',
    ]);
    expect(byMonth(line.weeks).map(({ name, weeks }) => [name, weeks.length])).toEqual([
      ['Jan 2026', 4],
      ['Feb 2026', 4],
      ['Mar 2026', 1],
    ]);
  });

  it('are told in one sentence to who cannot see them', async () => {
    const { line } = await lineOf(runs(0, 1, 4, 5, 6, 7, 8));
    expect(stripSentence(line)).toBe(
      'Room 2, 9 weeks: 7 with a run, 0 of them late, 2 without one though it was due, 0 out of service.',
    );
  });
});

describe('what was missed or late', () => {
  it('is one line for weeks on end, newest first', async () => {
    expect(await lapses(runs(0, 3, 4, 6, 7, 8))).toEqual([
      ['gap', 'Mon 9 Feb to Sun 15 Feb: 1 week without a run.', []],
      ['gap', 'Mon 12 Jan to Sun 25 Jan: 2 weeks without a run.', []],
    ]);
  });

  it('is parted where a reason is given for some of the weeks, which stands with its writer', async () => {
    expect(await lapses([...runs(0, 3, 4, 5, 6, 7, 8), explained('2026-01-19', '2026-01-25')])).toEqual([
      [
        'gap',
        'Mon 19 Jan to Sun 25 Jan: 1 week without a run.',
        ['The laboratory was closed. IM, 1 Jan 2026'],
      ],
      ['gap', 'Mon 12 Jan to Sun 18 Jan: 1 week without a run.', []],
    ]);
  });

  it('names both days of a late run', async () => {
    const late = run(1, 3, { madeAt: '2026-01-14T08:00:00.000Z' });
    const [found] = await lapses([run(0, 3), late, ...runs(2, 3, 4, 5, 6, 7, 8)]);
    expect(found).toEqual(['late', 'Mon 12 Jan to Sun 18 Jan: was due Mon 12 Jan, made Wed 14 Jan.', []]);
  });
});

describe('how many came in time', () => {
  it('is counted by due date, and a reason changes no count', async () => {
    const made = runs(0, 1, 3, 4, 5, 6, 7, 8);
    const whole = async (drafts: readonly EntryDraft[]) => (await lineOf(drafts)).line.answer?.whole;
    // There since 1 January: due first by the 8th and made on the 5th, then on the Mondays of weeks 1 to 8; that of week 2 was missed.
    expect(await whole(made)).toMatchObject({ due: 9, onTime: 8, late: 0, missed: 1, explained: 0 });
    const reason = explained('2026-01-19', '2026-01-25');
    expect(await whole([...made, reason])).toMatchObject({ onTime: 8, missed: 1, explained: 1 });
  });

  it('is said in a sentence, with how much of what lapsed has a reason', () => {
    const counts = { due: 50, onTime: 47, late: 1, missed: 2, explained: 1, rate: 0.94 };
    expect(onTimeSentence(counts)).toBe(
      '47 of 50 runs on time (94 %), 1 late, 2 missed; a reason is given for 1.',
    );
    expect(onTimeSentence({ ...counts, explained: 3 })).toMatch(/; a reason is given for each\.$/);
    expect(onTimeSentence({ ...counts, explained: 0 })).toMatch(/; no reason is given\.$/);
    const none = { due: 0, onTime: 0, late: 0, missed: 0, explained: 0, rate: null };
    expect(onTimeSentence(none)).toBe('No run fell due in this period.');
  });

  it('is not asked where simulations have no interval', async () => {
    const { line } = await lineOf([...runs(0), scheduleSet('simulation', { every: null })]);
    expect(line).toMatchObject({ answer: null, inShort: 'not scheduled', weeks: [] });
  });
});

describe('the other checks', () => {
  const checksOf = async (...drafts: EntryDraft[]) => {
    const { line, sources } = await lineOf([...runs(0), ...drafts]);
    return otherChecks(line.analyzer, period, sources).map(({ check, whole }) => [
      check,
      whole.onTime,
      whole.due,
    ]);
  };

  it('are left out as long as nobody has made or scheduled them', async () => {
    expect(await checksOf()).toEqual([]);
  });

  it('of a usual schedule count from the first that was made, entered or noted', async () => {
    // Weekly from week 5 on: due in weeks 6, 7 and 8, of which week 7 was missed.
    const controls = [5, 6, 8].map((index) => biological(index, 25));
    expect(await checksOf(subjectAdded(), ...controls)).toEqual([['biological-control', 2, 3]]);
    const noted = checkDone('biological-control', week(4));
    expect(await checksOf(subjectAdded(), ...controls, noted)).toEqual([['biological-control', 3, 4]]);
  });

  it('of the laboratory’s own schedule count from when the analyzer came', async () => {
    // Added on 1 January and run since the 5th: due each Thursday from the 8th to 5 March, none made.
    const weekly = scheduleSet('biological-control', { every: { unit: 'days', count: 7 } });
    expect(await checksOf(weekly)).toEqual([['biological-control', 0, 9]]);
  });

  /** Written on Thursday 12 February 2026, all else on 1 January. */
  const withLaterSchedule = async (...drafts: EntryDraft[]) => {
    const all = [...laboratoryDrafts(), ...drafts];
    const at = all.map((_, index) => `2026-01-01T00:0${index}:00.000Z`).with(-1, '2026-02-12T09:00:00.000Z');
    const logbook = foldJournal(await sealChain(all, { at }));
    const { assessments } = await opened([]);
    const analyzer = logbook.analyzers.get(ids.analyzer);
    if (analyzer === undefined) throw new Error('no analyzer');
    return { analyzer, sources: { logbook, assessments, now, zone } };
  };

  it('of a schedule that was set later do not count what lies before it', async () => {
    const weekly = scheduleSet('linearity', { every: { unit: 'days', count: 7 } });
    const { analyzer, sources } = await withLaterSchedule(weekly);
    // Due on the 19th, the 26th and 5 March, none made.
    expect(otherChecks(analyzer, period, sources)).toMatchObject([
      { check: 'linearity', whole: { due: 3, missed: 3 } },
    ]);
  });

  it('are counted by the interval that held, when it was changed', async () => {
    const { sources } = await withLaterSchedule(...runs(0, 2), scheduleSet('simulation'));
    // Weekly: the 8th answered ahead on the 5th, the 12th missed, the 19th made; 26 January, 2 and 9 February missed.
    // Fortnightly from the 12th on, counted from 19 January: 16 February and 2 March missed.
    const [line] = buildLines(period, sources);
    expect(line?.answer?.whole).toMatchObject({ due: 8, onTime: 2, missed: 6 });
  });
});

describe('the periods to choose from', () => {
  it('are the last 52 weeks and every year since the first run', async () => {
    const { logbook } = await opened([run(0, 3, { madeAt: '2024-12-31T23:30:00.000Z' })]);
    // The zone of the entry, Oslo, has 2025 already.
    expect(
      periodChoices(logbook, '2026-03-08').map(({ id, period: { from, to } }) => [id, from, to]),
    ).toEqual([
      ['last-year', '2025-03-10', '2026-03-08'],
      ['2026', '2026-01-01', '2026-12-31'],
      ['2025', '2025-01-01', '2025-12-31'],
    ]);
  });
});

describe('a reason as it is typed', () => {
  const typed = { check: 'simulation', from: '2026-01-19', to: '2026-01-25', reason: ' Closed. ' } as const;

  it('is read', () => {
    expect(readGap(typed)).toEqual({ ok: true, description: { ...typed, reason: 'Closed.' } });
  });

  it.each([
    [{ from: '' }, 'from', /^Type the first day/],
    [{ from: '0026-01-19' }, 'from', /four digits/],
    [{ to: '' }, 'to', /^Type the last day/],
    [{ to: '2026-01-18' }, 'to', /before the first day/],
    [{ reason: ' ' }, 'reason', /^Say why/],
  ])('is refused beside its field: %o', (change, field, message) => {
    const reading = readGap({ ...typed, ...change });
    expect(reading).toMatchObject({ ok: false, errors: { [field]: expect.stringMatching(message) } });
  });
});
