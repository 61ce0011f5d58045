/** From a series to its chart. All arithmetic of the chart is here and beside it; the drawing only scales. */
import type { PolicyStep } from '../../core/index.ts';
import type { EntryOf } from '../../journal/entries.ts';
import { valueAxis } from '../parts/valueAxis.ts';
import { eventWords } from '../parts/words.ts';
import { type AxisKind, axisView } from './axisView.ts';
import { timeTicks } from './chartAxes.ts';
import { isOn, lineNames, outsideRail, railEndsOf } from './chartNames.ts';
import { chartPoints, placedItems, placesBehind, stretchesOf } from './chartPoints.ts';
import { dayMs, type Span, shownOf } from './chartWindow.ts';
import type { ChartEvent, ControlChartModel } from './controlChartModel.ts';
import { cutLine, cutSpans } from './cutToWindow.ts';
import { failureSpans, type SeriesFailure } from './failureSpans.ts';
import type { LimitsInForce } from './limitsInForce.ts';
import { type ComparedSeries, overlayOf } from './overlays.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';
import type { SeriesScale } from './seriesScale.ts';

export interface ChartStory {
  /** In time order, voided ones included, at least one. */
  items: readonly SeriesItem[];
  /** What they are called, in the singular: `run`, `test`. */
  noun: string;
  scale: SeriesScale;
  inForce: LimitsInForce;
  /** Of this analyzer: by which each is judged. */
  policySteps: readonly PolicyStep[];
  /** Of this analyzer. */
  events: readonly EntryOf<'event-recorded'>[];
  /** Of this analyzer. */
  baselineStarts: readonly EntryOf<'baseline-started'>[];
  /** Of this series. */
  failures: readonly SeriesFailure[];
  /** Other series to be laid over it, their values in the unit of `scale`. */
  compared: readonly ComparedSeries[];
}

export interface ChartView {
  axis: AxisKind;
  /** The switch: widen the axis until the published limits are seen. */
  showPublished: boolean;
  /** The part of the time to show; null for all of it. */
  window: Span | null;
}

export function buildControlChart(story: ChartStory, chosen: ChartView): ControlChartModel {
  const { items } = story;
  const view = axisView({ ...story, axis: chosen.axis });
  const whole = timeSpan(story);
  const shown = shownOf(chosen.window, whole) ?? whole;
  const counted = items.filter(isCounted);
  const limits = cutSpans(view.limits(counted, whole.to), shown);
  const rails = cutSpans(view.rails(counted.length > 0 ? counted : items, whole), shown);
  const within = items.filter(({ at }) => at >= shown.from && at <= shown.to);
  const placed = placedItems(within, view);
  const overlays = story.compared.map((series) => overlayOf(series, view, shown));
  const ownValues = [
    ...placed.filter(({ item }) => isCounted(item)).map(({ level }) => level),
    ...limits.flatMap(({ low3, high3 }) => [low3, high3]),
    ...overlays.flatMap(({ stretches }) => stretches.flat().map(({ value }) => value)),
  ];
  const railValues = rails.flatMap(({ low, high }) => [low, high]);
  const fittedAxis = valueAxis(
    limits.length > 0 ? ownValues : [...ownValues, ...railValues],
    view.resolution,
  );
  const axis = chosen.showPublished ? valueAxis([...ownValues, ...railValues], view.resolution) : fittedAxis;
  const railEnds = railEndsOf(rails.at(-1));
  const lastStep = limits.at(-1);
  const atTheEnd = lastStep?.to === shown.to ? lastStep : undefined;
  const epochs = epochsOf(story, shown);
  const events = chartEvents(story.events, shown);
  const points = chartPoints(
    placed,
    view,
    axis,
    [...epochs, ...events].map(({ at }) => at),
  );
  const drawn = points.map(({ item, value }) => ({ item, level: value }));
  const before = placedItems(items.filter(({ at }) => at < shown.from).slice(-1), view);
  const after = placedItems(items.filter(({ at }) => at > shown.to).slice(0, 1), view);
  return {
    axis: view.kind,
    ...shown,
    whole,
    itemCount: within.length,
    noun: story.noun,
    offAxis: within.length - placed.length,
    timeTicks: timeTicks(shown.from, shown.to),
    valueAxis: axis,
    valueTicks: new Map(axis.ticks.map((tick) => [tick, view.tick(tick, axis.step)])),
    points,
    places: placesBehind(placed, axis),
    stretches: stretchesOf([...before, ...drawn, ...after].filter(({ item }) => isCounted(item)))
      .map((stretch) => cutLine(stretch, shown))
      .filter(({ length }) => length > 0),
    overlays,
    limits,
    rails,
    names: lineNames(railEnds, axis, view, atTheEnd),
    outside: railEnds.flatMap((rail) => outsideRail(rail, axis, view, atTheEnd)),
    publishedCanBeOutside: railEnds.some(({ value }) => !isOn(fittedAxis, value)),
    epochs,
    events,
    failures: cutSpans(failureSpans(story.failures, whole.to), shown),
  };
}

const epochsOf = ({ baselineStarts }: ChartStory, { from, to }: Span) =>
  baselineStarts
    .map(({ body }) => ({ id: body.baselineId, at: Date.parse(body.from) }))
    .filter(({ at }) => at > from && at <= to);

/** From the first of the series to the last thing that happened, with air at both ends. */
export function timeSpan({ items, events, baselineStarts, failures, compared }: ChartStory): Span {
  const [first] = items;
  const last = items.at(-1);
  if (!first || !last) throw new RangeError('buildControlChart: a chart needs at least one run or test');
  const end = [
    ...events.map(({ body }) => Date.parse(body.happenedAt)),
    ...baselineStarts.map(({ body }) => Date.parse(body.from)),
    ...failures.map(({ ended }) => (ended?.by === 'closure' ? ended.at : last.at)),
    ...compared.flatMap((series) => series.items.at(-1)?.at ?? []),
  ].reduce((latest, at) => Math.max(latest, at), last.at);
  const start = compared.reduce(
    (earliest, series) => Math.min(earliest, series.items[0]?.at ?? earliest),
    first.at,
  );
  const air = Math.max((end - start) * 0.02, 4 * dayMs);
  return { from: start - air, to: end + air };
}

function chartEvents(events: readonly EntryOf<'event-recorded'>[], { from, to }: Span): ChartEvent[] {
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
