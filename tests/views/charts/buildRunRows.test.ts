import { describe, expect, it } from 'vitest';
import { buildRunRows } from '../../../src/views/charts/buildRunRows.ts';
import { seriesOf } from './chart.ts';
import { dlcoSeries, entry, runEntry, runId, steadyVa, week, weeklyRuns } from './madeUpLogbook.ts';

function rowsOf(entries: Parameters<typeof seriesOf>[0], series = seriesOf(entries)) {
  return buildRunRows(series.items, 'va', series.scale, series.logbook);
}

describe('buildRunRows', () => {
  it('writes the newest run first, each number with its own decimals', () => {
    const rows = rowsOf(weeklyRuns([...steadyVa, 3.02]));
    expect(rows).toHaveLength(21);
    expect(rows[0]).toMatchObject({
      when: '26 May 2025, 08:00',
      reading: { value: '3.02', unit: 'L BTPS' },
      temperature: '22.0',
      pressure: { value: '760', unit: 'mmHg' },
      factor: '1.0000',
      value: '3.020',
      offTargetMl: '+20',
      n: '20',
      mean: '3.000',
      sd: '0.0189',
      z: '+1.06', // 0.02 / 0.0189181
      note: '',
      establishing: false,
    });
    expect(rows.at(-1)).toMatchObject({ n: '0', mean: '–', sd: '–', z: '–', establishing: true });
  });

  it('shows both verdicts where today’s differs from that of the day', () => {
    const [row] = rowsOf(weeklyRuns([...steadyVa, 3.1]));
    expect(row).toMatchObject({ word: 'fail', onTheDay: 'on the day: pass' });
    expect(row?.signals).toContain('1-3s');
  });

  it('keeps a voided run with by whom, when and why', () => {
    const [row] = rowsOf([
      ...weeklyRuns([3, 3.5]),
      entry('run-voided', { runId: runId(1), reason: 'Hose loose' }, week(2)),
    ]);
    expect(row).toMatchObject({
      value: '3.500',
      signals: [],
      n: '–',
      onTheDay: '',
      voided: { initials: 'AB', when: '20 Jan 2025', reason: 'Hose loose' },
    });
  });

  it('keeps every digit that was typed', () => {
    const typed = (dlco: number) =>
      runEntry({
        id: runId(Math.round(dlco * 1000)),
        at: week(0),
        vaL: 3.455,
        dlco,
        change: { comment: ' Cold room ' },
      });
    const series = seriesOf([typed(0.1), typed(0.125)], { series: dlcoSeries });
    const rows = buildRunRows(series.items, 'dlco', series.scale, series.logbook);
    expect(rows.map(({ reading }) => reading.value)).toEqual(['0.125', '0.10']);
    expect(rows[0]?.note).toBe('Cold room');
    expect(rowsOf([typed(0.1)])[0]?.reading.value).toBe('3.455');
  });

  it('says why a run was made when it was not the weekly one', () => {
    const [row] = rowsOf([
      runEntry({
        id: runId(0),
        at: week(0),
        vaL: 3,
        change: { reason: 'after-service', comment: 'New valve' },
      }),
    ]);
    expect(row?.note).toBe('After service. New valve');
  });
});
