/** From a series' runs to its chart. All arithmetic of the chart is here and in chartAxes; the drawing only scales. */
import type { PolicyStep } from '../../core/index.ts';
import type { EntryOf } from '../../journal/entries.ts';
import type { Failure } from '../failures.ts';
import { dayAndTime, zInTable } from '../parts/figures.ts';
import { type ValueAxis, valueAxis } from '../parts/valueAxis.ts';
import { eventWords, verdictWords } from '../parts/words.ts';
import { timeTicks } from './chartAxes.ts';
import type { SeriesRun } from './chartSeries.ts';
import type {
  ChartEvent,
  ChartFailure,
  ChartPoint,
  ControlChartModel,
  LineName,
  OutsideRail,
} from './controlChartModel.ts';
import { inSd, outerWidth } from './describeSeries.ts';
import { limitStepInForce, limitSteps, publishedRails } from './limitSteps.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import { firedRules, rulesLabel } from './ruleNames.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface ControlChartSource {
  /** In time order, voided runs included, at least one. */
  runs: readonly SeriesRun[];
  scale: SeriesScale;
  inForce: LimitsInForce;
  /** Of this analyzer: by which each run is judged. */
  policySteps: readonly PolicyStep[];
  /** Of this analyzer. */
  events: readonly EntryOf<'event-recorded'>[];
  /** Of this analyzer. */
  baselineStarts: readonly EntryOf<'baseline-started'>[];
  /** Of this series. */
  failures: readonly Failure[];
  /** The switch: widen the axis until the published limits are seen. */
  showPublished: boolean;
}

const dayMs = 86_400_000;

export function buildControlChart(source: ControlChartSource): ControlChartModel {
  const { runs, scale, inForce, policySteps } = source;
  const counted = runs.filter(({ run }) => run.voided === null);
  const { from, to } = timeSpan(source);
  const limits = limitSteps(counted, scale, inForce, policySteps, to);
  const rails = publishedRails(counted.length > 0 ? counted : runs, scale, { from, to });
  const ownValues = [
    ...counted.map(({ value }) => value),
    ...limits.flatMap(({ low3, high3 }) => [low3, high3]),
  ];
  const railValues = rails.flatMap(({ low, high }) => [low, high]);
  const fitted = valueAxis(limits.length > 0 ? ownValues : [...ownValues, ...railValues], scale.resolution);
  const axis = source.showPublished ? valueAxis([...ownValues, ...railValues], scale.resolution) : fitted;
  const lastRail = rails.at(-1);
  const railEnds = lastRail
    ? [
        { key: 'published-high' as const, value: lastRail.high },
        { key: 'published-low' as const, value: lastRail.low },
      ]
    : [];
  return {
    from,
    to,
    timeTicks: timeTicks(from, to),
    valueAxis: axis,
    points: chartPoints(runs, scale, axis),
    stretches: stretchesOf(counted),
    limits,
    rails,
    names: lineNames(railEnds, axis, scale, inForce),
    outside: railEnds.flatMap((rail) => outsideRail(rail, axis, scale, inForce)),
    publishedCanBeOutside: railEnds.some(({ value }) => !isOn(fitted, value)),
    epochs: source.baselineStarts
      .map(({ body }) => ({ id: body.baselineId, at: Date.parse(body.from) }))
      .filter(({ at }) => at > from && at <= to),
    events: chartEvents(source.events, { from, to }),
    failures: source.failures.map((failure) => chartFailure(failure, source.baselineStarts, to)),
  };
}

const isOn = ({ from, to }: ValueAxis, value: number) => value >= from && value <= to;

/** From the first run to the last thing that happened, with air at both ends. */
function timeSpan({ runs, events, baselineStarts, failures }: ControlChartSource): {
  from: number;
  to: number;
} {
  const [first] = runs;
  const last = runs.at(-1);
  if (!first || !last) throw new RangeError('buildControlChart: a chart needs at least one run');
  const end = [
    ...events.map(({ body }) => Date.parse(body.happenedAt)),
    ...baselineStarts.map(({ body }) => Date.parse(body.from)),
    ...failures.map(({ ended }) =>
      ended?.by === 'closure' ? Date.parse(ended.closure.body.closedAt) : last.at,
    ),
  ].reduce((latest, at) => Math.max(latest, at), last.at);
  const air = Math.max((end - first.at) * 0.02, 4 * dayMs);
  return { from: first.at - air, to: end + air };
}

function chartPoints(runs: readonly SeriesRun[], scale: SeriesScale, axis: ValueAxis): ChartPoint[] {
  let labelBefore = '';
  return runs.map((seriesRun) => {
    const { run, at, value, evaluation, word } = seriesRun;
    const voided = run.voided !== null;
    const fired = voided ? [] : firedRules(seriesRun);
    const label = rulesLabel(seriesRun, fired);
    const saidBefore = label === labelBefore;
    if (!voided) labelBefore = label;
    const middle = evaluation.mean === null ? (axis.from + axis.to) / 2 : scale.inUnit(evaluation.mean);
    return {
      id: run.id,
      at,
      value,
      drawnAt: Math.min(Math.max(value, axis.from), axis.to),
      dot: voided ? 'struck' : evaluation.z === null ? 'open' : 'filled',
      mark: voided || word === 'pass' ? null : word,
      label: label === '' || saidBefore ? null : label,
      labelSide: value >= middle ? 'above' : 'below',
      details: {
        when: dayAndTime(at),
        value: `${scale.value(value)} ${scale.unit}`,
        former: seriesRun.former,
        z: evaluation.z === null ? '' : `z ${zInTable(evaluation.z)}`,
        verdict: voided ? 'Voided' : verdictWords[word],
        fired: fired.join(', '),
        note: run.voided?.reason ?? run.body.comment,
      },
    };
  });
}

/** No line reaches across a new baseline: what stands before it and after it are not one series. */
function stretchesOf(counted: readonly SeriesRun[]): { at: number; value: number }[][] {
  const stretches: { at: number; value: number }[][] = [];
  let epoch: number | null = null;
  for (const { run, at, value } of counted) {
    if (run.simulation.epoch !== epoch) stretches.push([]);
    epoch = run.simulation.epoch;
    stretches.at(-1)?.push({ at, value });
  }
  return stretches;
}

interface RailEnd {
  key: 'published-high' | 'published-low';
  value: number;
}

function lineNames(
  railEnds: readonly RailEnd[],
  axis: ValueAxis,
  scale: SeriesScale,
  inForce: LimitsInForce,
): LineName[] {
  const { own } = inForce;
  const published = railEnds
    .filter(({ value }) => isOn(axis, value))
    .map(({ key, value }) => ({ key, name: 'published', value, text: scale.limit(value) }));
  if (own === null) return published;
  const { low3, high3, mean } = limitStepInForce(own, inForce);
  const width = outerWidth(inForce);
  return [
    ...published,
    { key: 'high3', name: `+${width}`, value: high3, text: scale.mean(high3) },
    { key: 'mean', name: 'mean', value: mean, text: scale.mean(mean) },
    { key: 'low3', name: `−${width}`, value: low3, text: scale.mean(low3) },
  ];
}

function outsideRail(
  { value }: RailEnd,
  axis: ValueAxis,
  scale: SeriesScale,
  { own }: LimitsInForce,
): OutsideRail[] {
  if (isOn(axis, value)) return [];
  const distance = own === null ? '' : `, ${inSd((value - own.mean) / own.sd)} SD away`;
  return [
    {
      side: value > axis.to ? 'above' : 'below',
      text: `published ${scale.limit(value)} ${scale.unit}${distance}`,
    },
  ];
}

function chartEvents(
  events: readonly EntryOf<'event-recorded'>[],
  { from, to }: { from: number; to: number },
): ChartEvent[] {
  return events
    .map(({ body }) => ({
      id: body.eventId,
      at: Date.parse(body.happenedAt),
      word: eventWords[body.type],
      description: body.description,
    }))
    .filter(({ at }) => at >= from && at <= to)
    .sort((one, other) => one.at - other.at);
}

/** A failure lasts until its closure, until a new baseline puts it aside, or until now: then it reaches the edge. */
function chartFailure(
  { openedBy, ended }: Failure,
  baselineStarts: readonly EntryOf<'baseline-started'>[],
  edge: number,
): ChartFailure {
  const from = openedBy.simulation.at;
  const common = { id: openedBy.id, from };
  if (ended === null) return { ...common, to: edge, open: true, word: 'failure open' };
  if (ended.by === 'closure') {
    return { ...common, to: Date.parse(ended.closure.body.closedAt), open: false, word: 'failure' };
  }
  const putAside = baselineStarts
    .map(({ body }) => Date.parse(body.from))
    .filter((at) => at > from)
    .reduce((earliest, at) => Math.min(earliest, at), edge);
  return { ...common, to: putAside, open: false, word: 'failure' };
}
