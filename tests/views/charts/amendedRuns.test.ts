import { describe, expect, it } from 'vitest';
import type { Judgement, RunContent } from '../../../src/journal/entries.ts';
import { buildRunRows } from '../../../src/views/charts/buildRunRows.ts';
import { runsMovedAway } from '../../../src/views/charts/movedAway.tsx';
import { chartOf, detailsOf, seriesOf } from './chart.ts';
import {
  entry,
  otherAnalyzerId,
  runEntry,
  runId,
  steadyVa,
  vaSeries,
  week,
  weeklyRuns,
} from './madeUpLogbook.ts';

const series = { n: 20, mean: 3, sd: 0.0189, signals: [] };
const judged = (word: Judgement['word'], vaL: number): Judgement => ({
  word,
  establishing: false,
  failureOpen: word === 'fail',
  va: {
    ...series,
    value: vaL,
    z: (vaL - 3) / 0.0189,
    signals: word === 'fail' ? [{ rule: '1-3s', severity: 'action' }] : [],
  },
  dlco: { ...series, value: 0.01, z: 0 },
});

/** The twenty steady runs, one at 3.1 that failed on its day, and what it is amended to. */
function amendedTo(changes: Partial<RunContent>, word: Judgement['word'] = 'pass') {
  const recorded = runEntry({
    id: runId(20),
    at: week(20),
    vaL: 3.1,
    change: { judged: judged('fail', 3.1) },
  });
  if (recorded.kind !== 'run-recorded') throw new Error('no run');
  const { runId: _, origin: __, judged: ___, ...content } = recorded.body;
  const run = { ...content, ...changes };
  const body = {
    amendmentId: 'amendment-one',
    runId: runId(20),
    run,
    judged: judged(word, run.reading.vaL),
    reason: 'Read wrongly',
  };
  return [...weeklyRuns(steadyVa), recorded, entry('run-amended', body, week(21))];
}
const at301: Partial<RunContent> = {
  reading: { vaL: 3.01, vaReportedAs: 'BTPS', dlco: 0.01, dlcoUnit: 'mL/min/mmHg' },
};
const when = '2 Jun 2025, 08:00';

function rowsOf(entries: Parameters<typeof seriesOf>[0], options: Parameters<typeof seriesOf>[1] = {}) {
  const shown = seriesOf(entries, options);
  return buildRunRows(shown.items, 'va', shown.scale, shown.logbook);
}

describe('an amended run in its chart’s table', () => {
  it('has the new value, judged with it, and the old one with whoever replaced it', () => {
    const [row] = rowsOf(amendedTo(at301));
    expect(row).toMatchObject({ value: '3.010', reading: { value: '3.01' }, z: '+0.53', word: 'pass' });
    expect(row?.former).toMatchObject({
      value: [{ value: '3.100', initials: 'AB', when }],
      reading: [{ value: '3.10 L BTPS', initials: 'AB', when }],
      temperature: [],
      pressure: [],
      factor: [],
    });
    expect(row?.amended).toEqual(['Amended by AB, 2 Jun 2025: Read wrongly']);
  });

  it('has the verdict of the day struck through where the amendment changed it', () => {
    expect(rowsOf(amendedTo(at301))[0]).toMatchObject({ struckWord: 'fail', word: 'pass', onTheDay: '' });
  });

  it('says what came out when it was amended where today says something else', () => {
    expect(rowsOf(amendedTo({ comment: 'Cold room' }))[0]).toMatchObject({
      struckWord: 'fail',
      word: 'fail',
      onTheDay: 'when amended: pass',
    });
  });

  it('has no verdict struck through where the amendment left it', () => {
    expect(rowsOf(amendedTo({ comment: 'Cold room' }, 'fail'))[0]).toMatchObject({
      struckWord: null,
      onTheDay: '',
    });
  });

  it('leaves its series for that of the analyzer it is moved to, and says there where it stood', () => {
    const moved = amendedTo({ analyzerId: otherAnalyzerId });
    expect(rowsOf(moved)).toHaveLength(20);
    const there = rowsOf(moved, { series: { ...vaSeries, analyzerId: otherAnalyzerId } });
    expect(there).toMatchObject([{ value: '3.100', z: '–', n: '0', establishing: true }]);
    expect(there[0]?.amended).toEqual([
      'Amended by AB, 2 Jun 2025: Read wrongly. It stood under Room 2 before.',
    ]);
  });
});

describe('the series that a run was moved from', () => {
  it('names it, and no run that never left', () => {
    const { logbook } = seriesOf(amendedTo({ analyzerId: otherAnalyzerId }));
    expect(runsMovedAway(logbook, vaSeries).map(({ id }) => id)).toEqual([runId(20)]);
    expect(runsMovedAway(logbook, { ...vaSeries, analyzerId: otherAnalyzerId })).toEqual([]);
    expect(runsMovedAway(seriesOf(amendedTo(at301)).logbook, vaSeries)).toEqual([]);
  });

  it('names it by its route too', () => {
    const { logbook } = seriesOf(amendedTo({ route: 'built-in' }));
    expect(runsMovedAway(logbook, vaSeries)).toHaveLength(1);
    expect(runsMovedAway(logbook, { ...vaSeries, route: 'built-in' })).toEqual([]);
  });
});

describe('an amended run on its chart', () => {
  it('lies at its new value, and its details hold the old one', () => {
    const point = chartOf(amendedTo(at301)).points.at(-1);
    expect(point).toMatchObject({ value: 3.01, mark: null });
    expect(detailsOf(point)).toMatchObject({
      value: '3.010 L',
      former: [{ value: '3.100', initials: 'AB', when }],
    });
  });

  it('no longer opens a failure that its first value opened', () => {
    expect(seriesOf(amendedTo({ comment: 'Cold room' })).failures).toHaveLength(1);
    expect(seriesOf(amendedTo(at301)).failures).toEqual([]);
  });
});
