import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/journal/entries.ts';
import { axisView } from '../../../src/views/charting/axisView.ts';
import { buildControlChart } from '../../../src/views/charting/buildControlChart.ts';
import { overlaySentence } from '../../../src/views/charting/describeSeries.ts';
import { comparedRows } from '../../../src/views/charting/overlays.ts';
import {
  comparedChoices,
  comparedSeries,
  lineStyles,
  mostCompared,
} from '../../../src/views/charts/compareSeries.ts';
import { seriesOf } from './chart.ts';
import {
  dlcoSeries,
  entry,
  otherAnalyzerId,
  runEntry,
  runId,
  steadyVa,
  vaSeries,
  week,
  weeklyRuns,
} from './madeUpLogbook.ts';

/** Runs of Room 5, which reads 0.1 L more than Room 2. */
const roomFive = (values: readonly number[], from = 0): Entry[] =>
  values.map((vaL, index) =>
    runEntry({
      id: `other-${runId(index)}`,
      at: week(from + index) + 1,
      vaL,
      change: { analyzerId: otherAnalyzerId },
    }),
  );
const higher = steadyVa.map((value) => value + 0.1);

function compared(entries: readonly Entry[], axis: 'value' | 'z' = 'value', series = vaSeries) {
  const source = seriesOf(entries, { series });
  const choices = comparedChoices(source.logbook, source.assessments, series);
  const story = {
    ...source,
    compared: comparedSeries(source.logbook, source.assessments, source.scale, choices),
  };
  const model = buildControlChart(story, { axis, showPublished: false, window: null });
  return { choices, story, model, view: axisView({ ...story, axis }) };
}

describe('other analyzers over a chart', () => {
  it('are offered where quantity and method are the same, whatever the route', () => {
    const builtIn = runEntry({ id: 'run-built-in', at: week(3), vaL: 3, change: { route: 'built-in' } });
    const { choices } = compared([...weeklyRuns(steadyVa), ...roomFive(higher), builtIn]);
    expect(choices.map(({ label }) => label)).toEqual(['Room 2, built-in routine', 'Room 5, patient test']);
    expect(choices.map(({ name }) => name)).toEqual(['Room 2, built-in routine', 'Room 5']);
    expect(choices.every(({ series }) => series.quantity === 'va')).toBe(true);
  });

  it('widen the axis and the time, and keep each its own stroke', () => {
    const { model } = compared([...weeklyRuns(steadyVa), ...roomFive(higher, 5)]);
    expect(model.overlays).toMatchObject([{ label: 'Room 5, patient test', dash: lineStyles[0] }]);
    expect(model.overlays[0]?.stretches[0]).toHaveLength(20);
    expect(model.valueAxis.to).toBeGreaterThan(3.13);
    expect(model.to).toBeGreaterThan(week(24));
    expect(new Set(lineStyles).size).toBe(mostCompared);
    expect(overlaySentence(model)).toBe('Laid over it: Room 5, patient test.');
  });

  it('lie on the axis of z by their own means: 0.03 L above both is the same', () => {
    const { model, view } = compared([...weeklyRuns(steadyVa), ...roomFive(higher)], 'z');
    const own = model.points.at(-1)?.value ?? Number.NaN;
    expect(model.overlays[0]?.stretches[0]?.at(-1)?.value).toBeCloseTo(own, 6);
    expect(view.unit).toBe('');
  });

  it('leave voided runs out and end where a new baseline begins', () => {
    const voided = entry('run-voided', { runId: `other-${runId(2)}`, reason: 'Slipped' }, week(40));
    const start = week(9) + 5;
    const anew = entry(
      'baseline-started',
      {
        baselineId: 'baseline-other',
        analyzerId: otherAnalyzerId,
        from: new Date(start).toISOString(),
        reason: 'Valve',
      },
      start,
    );
    const { model } = compared([...weeklyRuns(steadyVa), ...roomFive(higher), voided, anew]);
    expect(model.overlays[0]?.stretches.map(({ length }) => length)).toEqual([9, 10]);
  });

  it('are read in the unit of the chart: 0.1 mL/min/mmHg is 0.0335 mmol/min/kPa', () => {
    // 1 mmol/min/kPa = 2.986 mL/min/mmHg (2017 standard, recalled; the core checks the digits).
    const inMmol = weeklyRuns(steadyVa).slice(0, 1);
    const reading = { vaL: 3, vaReportedAs: 'BTPS', dlco: 0.03, dlcoUnit: 'mmol/min/kPa' } as const;
    const own = runEntry({ id: runId(1), at: week(1), vaL: 3, change: { reading } });
    const other = runEntry({
      id: 'other-run-one',
      at: week(1),
      vaL: 3,
      dlco: 0.1,
      change: { analyzerId: otherAnalyzerId },
    });
    const { model } = compared([...inMmol, own, other], 'value', dlcoSeries);
    expect(model.overlays[0]?.stretches[0]?.[0]?.value).toBeCloseTo(0.1 / 2.986, 4);
  });

  it('say in figures what their lines say', () => {
    const { story, view, model } = compared([...weeklyRuns(steadyVa), ...roomFive(higher)]);
    const rows = comparedRows(
      [{ key: 'own', label: 'Room 2', dash: '', items: story.items }, ...story.compared],
      view,
      model,
    );
    // Python 3, statistics.mean and statistics.stdev of steadyVa.
    expect(rows.map(({ n, mean, sd, last }) => [n, mean, sd, last])).toEqual([
      ['20', '3.000', '0.0189', '3.010'],
      ['20', '3.100', '0.0189', '3.110'],
    ]);
    expect(comparedRows(story.compared, view, { from: 0, to: 1 })[0]).toMatchObject({ n: '0', mean: '–' });
  });
});
