import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { wasOpenIn } from '../../../src/views/report/failureEnds.ts';
import { endOf, isIn } from '../../../src/views/report/reportSources.ts';
import { gapLines } from '../../../src/views/report/runsSection.ts';
import { analyzerAdded, runRecorded } from '../../journal/fixtures.ts';
import { biological, controlId, session, subjectAdded } from '../controlDrafts.ts';
import {
  actionTaken,
  baseline,
  closure,
  draft,
  ids,
  lookBackReviewed,
  run,
  tenGoodRuns,
  week,
} from '../laboratory.ts';
import { blocksOf, chapterOf, chaptersOf, rowsOf, sourcesOf, wordsOf } from './reportBuilding.ts';

async function room2(drafts: readonly EntryDraft[]) {
  return chapterOf(chaptersOf(await sourcesOf(drafts)), ids.analyzer);
}

describe('the period of a report', () => {
  const inMarch = isIn({ from: '2026-03-01', to: '2026-03-31' });

  it('has both its ends in it, by the clock of the entry and not by UTC', () => {
    // Oslo is an hour ahead of UTC in winter and two in summer.
    expect(inMarch('2026-02-28T23:30:00.000Z', 'Europe/Oslo')).toBe(true);
    expect(inMarch('2026-02-28T23:30:00.000Z', 'UTC')).toBe(false);
    expect(inMarch('2026-03-31T21:59:00.000Z', 'Europe/Oslo')).toBe(true);
    expect(inMarch('2026-03-31T22:00:00.000Z', 'Europe/Oslo')).toBe(false);
    expect(inMarch('2026-04-01T03:00:00.000Z', 'America/Los_Angeles')).toBe(true);
  });

  it('goes by UTC where the zone is none that this browser knows', () => {
    expect(inMarch('2026-03-31T23:00:00.000Z', 'Mars/Olympus')).toBe(true);
    expect(inMarch('2026-04-01T00:00:00.000Z', 'Mars/Olympus')).toBe(false);
  });
});

describe('the cover', () => {
  it('names the period, the analyzers, who made it and the head of the journal', async () => {
    const sources = await sourcesOf(tenGoodRuns(), { madeBy: { initials: 'OF', name: 'Orla Fenn' } });
    const cover = chapterOf(chaptersOf(sources), 'cover');
    const about = wordsOf(blocksOf(cover, 'about'));
    expect(about).toContain('Period: 1 Jan 2026 to 30 Jun 2026, both days in');
    expect(about).toContain('Analyzers: Room 2');
    expect(about).toContain('Made by: OF, Orla Fenn');
    expect(about).not.toContain('Demonstration');
    const [head] = [...sources.heads.values()];
    expect(wordsOf(blocksOf(cover, 'what'))).toContain(`entry 14 is the last, hash ${head?.hash}`);
  });

  it('says that a demonstration is one, and that nobody was named', async () => {
    const cover = chapterOf(chaptersOf(await sourcesOf([], { demonstration: true })), 'cover');
    const about = wordsOf(blocksOf(cover, 'about'));
    expect(about).toContain('Demonstration data: an invented laboratory. Nothing here is a measurement.');
    expect(about).toContain('Made by: nobody was named');
  });

  it('lists what came in time and how it came out, a line for each analyzer', async () => {
    const cover = chapterOf(chaptersOf(await sourcesOf(tenGoodRuns())), 'cover');
    // By hand: in use since Thursday 1 January, so first due on the 8th; the ten Mondays from 5 January to 9 March answer ten dates in
    // time; then every Monday from 16 March to 29 June is missed, sixteen.
    expect(rowsOf(blocksOf(cover, 'at-a-glance'), 'at-a-glance')).toEqual([
      {
        Analyzer: 'Room 2',
        Due: '26',
        'On time': '10',
        'On-time rate': '38 %',
        Runs: '10',
        Pass: '10',
        Warning: '0',
        Fail: '0',
        'Pass rate': '100 %',
        Failures: '0',
        'Still open': '0',
      },
    ]);
  });

  it('tells of failures of controls too, whether or not their part is in it', async () => {
    const glance = async (drafts: readonly EntryDraft[]) => {
      const chapters = chaptersOf(await sourcesOf(drafts), { without: ['controls'] });
      return wordsOf(blocksOf(chapterOf(chapters, 'cover'), 'at-a-glance'));
    };
    // Six tests of mean 25.0 mL/min/mmHg, and one 4.4 above it: beyond 12 % and 3.0.
    const six = [24.6, 25.4, 25.1, 24.9, 25.3, 24.7].map((dlco, index) => biological(index, dlco));
    expect(await glance([subjectAdded(), ...six])).toContain(
      'No failure of biological controls or the simulator was open in this period.',
    );
    expect(await glance([subjectAdded(), ...six, biological(6, 29.4)])).toContain(
      '1 failure of biological controls or the simulator besides, 1 still open.',
    );
  });
});

describe('the analyzers of a report', () => {
  const other = draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-3', label: 'Room 3' });
  const titles = async (drafts: readonly EntryDraft[], choice = {}) =>
    chaptersOf(await sourcesOf(drafts), choice)
      .map(({ title }) => title)
      .slice(1, -1);

  it('are those that were chosen, in the order of the logbook', async () => {
    expect(await titles([other])).toEqual(['Room 2', 'Room 3']);
    expect(await titles([other], { analyzerIds: ['analyzer-room-3'] })).toEqual(['Room 3']);
  });

  it('are without one that was retired before and never run since', async () => {
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Sold.' });
    const choice = { from: '2026-02-01', to: '2026-02-28' };
    expect(await titles([other, retired], choice)).toEqual(['Room 3']);
    expect(await titles([other, retired, run(5, 3)], choice)).toEqual(['Room 2', 'Room 3']);
  });
});

describe('what the runs came to', () => {
  it('counts each verdict as it stands on record, and voided runs beside them', async () => {
    const judged = (word: 'warn' | 'fail') => ({ judged: { ...runRecorded(0).judged, word } });
    const asWritten = (index: number, word: 'warn' | 'fail') => {
      const { judged: before } = runRecorded(index);
      if (before === null) throw new Error('the fixture was judged');
      return run(index, 3, { judged: { ...before, ...judged(word).judged, word } });
    };
    const chapter = await room2([
      run(0, 3),
      run(1, 3.01),
      asWritten(2, 'warn'),
      asWritten(3, 'fail'),
      run(4, 3.02),
      draft('run-voided', { runId: ids.run(4), reason: 'Tap open.' }),
    ]);
    expect(rowsOf(blocksOf(chapter, 'runs'), 'verdicts')).toEqual([
      {
        Route: 'Patient test',
        Runs: '4',
        Pass: '2',
        Warning: '1',
        Fail: '1',
        'Not judged': '0',
        'Pass rate': '50 %',
        'Set aside': '0',
        'Voided besides': '1',
      },
    ]);
  });

  it('gives mean, SD, CV and where the published limits stand', async () => {
    const [va, dlco] = rowsOf(blocksOf(await room2(tenGoodRuns()), 'runs'), 'series');
    // By hand: the ten deviations from 3.000 L squared add up to 0.0042; divided by 9 and rooted 0.02160 L, which is 0.72 % of the mean;
    // 0.3 L is 13.9 of it. DLCO: five of +0.02 and five of −0.02, SD 0.02 · √(10/9) = 0.0211, and 0.5 is 23.7 of it.
    expect(va).toMatchObject({
      Series: 'VA, patient test, L',
      n: '10',
      Mean: '3.000',
      SD: '0.0216',
      CV: '0.72 %',
      'Published limits from the mean': '−13.9 and +13.9 SD',
    });
    expect(dlco).toMatchObject({
      Series: 'DLCO, patient test, mL/min/mmHg',
      Mean: '0.000',
      SD: '0.0211',
      CV: '–',
      'Published limits from the mean': '−23.7 and +23.7 SD',
    });
  });

  it('names the own limits by which the last run was judged, once there are any', async () => {
    const ten = rowsOf(blocksOf(await room2(tenGoodRuns()), 'runs'), 'series');
    expect(ten[0]?.['Own limits in force']).toBe('none yet');
    // By hand: 3.000 ± 3 · 0.02160 L.
    const eleven = rowsOf(blocksOf(await room2([...tenGoodRuns(), run(10, 3)]), 'runs'), 'series');
    expect(eleven[0]?.['Own limits in force']).toBe('2.935 to 3.065 (n\u00a010)');
  });

  it('never averages runs from before a new baseline with those after it', async () => {
    const chapter = await room2([run(0, 3), run(1, 3.02), baseline(week(1.5)), run(2, 3.1), run(3, 3.14)]);
    const rows = rowsOf(blocksOf(chapter, 'runs'), 'series').filter(({ Series }) => Series?.startsWith('VA'));
    expect(rows.map(({ Series, Mean }) => [Series, Mean])).toEqual([
      ['VA, patient test, L, 5 Jan 2026 to 12 Jan 2026', '3.010'],
      ['VA, patient test, L, 19 Jan 2026 to 26 Jan 2026', '3.120'],
    ]);
  });

  it('leaves out of the figures what was voided or set aside, and what lies outside the period', async () => {
    const drafts = [
      run(0, 3),
      run(1, 3.02),
      run(2, 3.9),
      draft('run-voided', { runId: ids.run(2), reason: 'Tap open.' }),
      run(3, 3.2),
      draft('run-set-aside', { runId: ids.run(3), isSetAside: true, reason: 'Another syringe.' }),
      run(30, 3.5),
    ];
    const [va] = rowsOf(blocksOf(await room2(drafts), 'runs'), 'series');
    expect(va).toMatchObject({ n: '2', Mean: '3.010' });
  });

  it('says so where no run was made', async () => {
    expect(wordsOf(blocksOf(await room2([]), 'runs'))).toBe('No run was made in this period.');
  });
});

describe('gapLines', () => {
  const gap = (monday: string, sunday: string, reason?: string) => ({
    monday,
    sunday,
    state: 'gap' as const,
    madeOn: null,
    dueOn: monday,
    explanations: reason === undefined ? [] : [{ id: monday, from: monday, to: sunday, reason }],
  });
  const made = { ...gap('2026-03-16', '2026-03-22'), state: 'made' as const };

  it('joins weeks in a row that have the same reason, or none, and no others', () => {
    expect(
      gapLines([
        gap('2026-03-02', '2026-03-08'),
        gap('2026-03-09', '2026-03-15'),
        made,
        gap('2026-03-23', '2026-03-29', 'Nobody trained was here'),
        gap('2026-03-30', '2026-04-05'),
      ]),
    ).toEqual([
      '2 Mar 2026 to 15 Mar 2026, 2 weeks: No reason given.',
      '23 Mar 2026 to 29 Mar 2026, 1 week: Nobody trained was here.',
      '30 Mar 2026 to 5 Apr 2026, 1 week: No reason given.',
    ]);
  });
});

describe('a failure', () => {
  const closed = [
    ...tenGoodRuns(),
    run(10, 3.37),
    actionTaken(10, week(10.2), { what: 'Sample line replaced', part: 'Line 4' }),
    run(10.3, 3.01, { runId: ids.run(11), madeAt: week(10.3) }),
    lookBackReviewed(10, { from: week(9), to: week(10.2) }),
    closure(10, week(10.4)),
  ];

  it('is told from what opened it to its closure', async () => {
    const told = wordsOf(blocksOf(await room2(closed), 'failures'));
    expect(told).toContain('VA, patient test: opened 16 Mar 2026, closed 19 Mar 2026');
    expect(told).toContain(
      'Opened by: the run of 16 Mar 2026, 09:00, by IM. Simulated VA is outside the published 300 mL.',
    );
    expect(told).toMatch(/When it began: .*began between 9 Mar 2026 and 16 Mar 2026/);
    expect(told).toMatch(/What was done: 17 Mar 2026, .*, by IM, part Line 4: Sample line replaced\./);
    expect(told).toMatch(
      /Patient look-back: .*none affected, 4 patients tested, 0 affected, reviewed by IM\./,
    );
    expect(told).toContain('Corrective action: Sample line replaced.');
    expect(told).toContain('by IM, Ilse Marong: The run after the repair lies inside.');
    expect(told).toContain('Signature: Not signed.');
  });

  it('that is still open says so, and one that ended before the period is not told', async () => {
    expect(wordsOf(blocksOf(await room2(closed.slice(0, 11)), 'failures'))).toContain('Closed: Not yet.');
    const later = chaptersOf(await sourcesOf(closed), { from: '2026-05-01' });
    expect(wordsOf(blocksOf(chapterOf(later, ids.analyzer), 'failures'))).toBe(
      'No failure was open in this period.',
    );
  });
});

describe('the last evening of a period', () => {
  beforeEach(() => vi.stubEnv('TZ', 'America/Los_Angeles'));
  afterEach(() => vi.unstubAllEnvs());

  it('is in it by the clock on the wall, though in UTC it is the next day', () => {
    // Los Angeles is seven hours behind UTC in summer, eight in winter.
    const wasOpen = wasOpenIn({ from: '2026-01-01', to: '2026-06-30' });
    expect(endOf({ from: '2026-01-01', to: '2026-06-30' })).toBe('2026-07-01T06:59:59.999Z');
    expect(wasOpen('2026-07-01T06:30:00.000Z', null)).toBe(true);
    expect(wasOpen('2026-07-01T07:00:00.000Z', null)).toBe(false);
    expect(
      wasOpen('2025-12-01T12:00:00.000Z', { by: 'new-baseline', from: '2026-01-01T07:59:00.000Z' }),
    ).toBe(false);
    expect(
      wasOpen('2025-12-01T12:00:00.000Z', { by: 'new-baseline', from: '2026-01-01T08:00:00.000Z' }),
    ).toBe(true);
  });
});

describe('events and corrections', () => {
  it('stand in the order of their time, each with who wrote it and why', async () => {
    const chapter = await room2([
      run(0, 3),
      draft('run-voided', { runId: ids.run(0), reason: 'Tap open' }),
      draft('event-recorded', {
        eventId: 'event-one',
        analyzerId: ids.analyzer,
        happenedAt: week(1),
        type: 'sensor',
        description: 'Flow sensor replaced',
      }),
      draft('service-set', {
        serviceId: 'service-one',
        analyzerId: ids.analyzer,
        inService: false,
        from: week(0.5),
        reason: 'Waits for a part',
      }),
    ]);
    const blocks = blocksOf(chapter, 'events');
    expect(rowsOf(blocks, 'happenings').map(({ What, 'In words': words, By }) => [What, words, By])).toEqual([
      ['Out of service', 'Waits for a part.', 'IM'],
      ['Sensor', 'Flow sensor replaced.', 'IM'],
    ]);
    expect(rowsOf(blocks, 'corrections').map(({ What, 'In words': words }) => [What, words])).toEqual([
      ['Voided', 'The run of 5 Jan 2026, 09:00: Tap open.'],
    ]);
  });

  it('name controls that were struck or set aside as they do runs', async () => {
    const chapter = await room2([
      subjectAdded(),
      biological(0, 25),
      draft('control-set-aside', {
        controlId: controlId(0),
        isSetAside: true,
        reason: 'The person had a cold',
      }),
      session(1, { low: 0 }),
      draft('control-voided', { controlId: controlId(1), reason: 'Another analyzer' }),
    ]);
    const corrections = rowsOf(blocksOf(chapter, 'events'), 'corrections');
    expect(corrections.map(({ What, 'In words': words, By }) => [What, words, By])).toEqual([
      ['Set aside', 'The test of a person of 5 Jan 2026, 10:00: The person had a cold.', 'IM'],
      ['Voided', 'The simulator session of 12 Jan 2026, 09:00: Another analyzer.', 'IM'],
    ]);
  });
});

describe('what may be left out', () => {
  it('is left out, and the summary and the signatures stay', async () => {
    const without = [
      'charts',
      'controls',
      'checks',
      'failures',
      'events',
      'method',
      'equipment',
      'sign-offs',
    ] as const;
    const [, analyzer, laboratory] = chaptersOf(await sourcesOf(tenGoodRuns()), { without });
    expect(analyzer?.sections.map(({ id }) => id)).toEqual(['description', 'weeks', 'runs']);
    expect(laboratory?.sections.map(({ id }) => id)).toEqual(['signatures']);
  });
});

describe('the limits and policies of a period', () => {
  const adopted = (from: string) =>
    draft('limits-adopted', {
      adoptionId: `adoption-of-${from}`,
      from,
      reason: 'Decided by the laboratory',
      limits: {
        edition: 'House 2026',
        source: 'House rule 7',
        vaToleranceL: 0.2,
        dlcoMlMinMmHg: 0.4,
        dlcoMmolMinKPa: 0.13,
        volumeCheckFraction: 0.025,
        breathHoldS: { target: 10, tolerance: 1 },
      },
    });
  const limits = async (drafts: readonly EntryDraft[]) =>
    wordsOf(blocksOf(chapterOf(chaptersOf(await sourcesOf(drafts)), 'laboratory'), 'limits'));

  it('names the edition it began with and each that was adopted in it', async () => {
    const told = await limits([adopted('2026-03-10T08:00:00.000Z')]);
    expect(told).toContain('When the period began: the edition that the logbook comes with, ERS/ATS 2017.');
    expect(told).toContain('VA: ±300 mL, ends included');
    expect(told).toContain('Adopted from 10 Mar 2026 on by IM: Decided by the laboratory.');
    expect(told).toContain('VA: ±200 mL, ends included');
  });

  it('begins with an edition that was adopted before', async () => {
    const told = await limits([adopted('2025-12-10T08:00:00.000Z')]);
    expect(told).toContain(
      'When the period began: adopted from 10 Dec 2025 on by IM: Decided by the laboratory.',
    );
    expect(told).not.toContain('±300 mL');
  });

  it('has one table of rules for all analyzers that are judged alike', async () => {
    const other = draft('analyzer-added', {
      ...analyzerAdded,
      analyzerId: 'analyzer-room-3',
      label: 'Room 3',
    });
    const blocks = blocksOf(chapterOf(chaptersOf(await sourcesOf([other])), 'laboratory'), 'policies');
    expect(blocks.filter(({ kind }) => kind === 'table')).toHaveLength(1);
    expect(wordsOf(blocks)).toContain('Room 2, Room 3');
    // Severities of the logbook's own default policy: core/controlPolicy.ts.
    expect(
      rowsOf(blocks, `rules of ${ids.analyzer}`).map(({ Rule, Severity }) => [Rule, Severity]),
    ).toContainEqual(['1-3s', 'action: fails the run']);
  });
});
