/** What a control chart shows, in the series' own unit and in milliseconds; where that lies on paper is the drawing's. */
import type { RuleId } from '../../core/index.ts';
import type { ValueAxis } from '../parts/valueAxis.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import type { AxisKind } from './axisView.ts';
import type { TimeTick } from './chartAxes.ts';
import type { Span } from './chartWindow.ts';
import type { Overlay } from './overlays.ts';
import type { SeriesItem } from './seriesItem.ts';

export interface ChartPoint {
  id: string;
  at: number;
  value: number;
  /** Where it is drawn: the value, or the axis's end for a voided one that lies outside. */
  drawnAt: number;
  /** `struck`: voided. `open`: made before own limits could judge. `apart`: judged, but no part of mean and SD. `filled`: judged. */
  dot: 'filled' | 'open' | 'struck' | 'apart';
  /** The larger mark of one with a signal or a breached published limit. */
  mark: Extract<MarkShape, 'warn' | 'fail'> | null;
  /** What fired, to stand beside the mark; null where the one before says the same. */
  label: string | null;
  /** Which side of the mark is free of the other dots. */
  labelSide: 'above' | 'below';
  /** What is told of it where somebody points at it. */
  item: SeriesItem;
}

/** Own limits that stayed the same from one instant to another. */
export interface LimitStep {
  from: number;
  to: number;
  mean: number;
  sd: number;
  low3: number;
  low2: number;
  high2: number;
  high3: number;
}

export interface RailStep {
  from: number;
  to: number;
  low: number;
  high: number;
}

/** A line's name at the right end, or why a rail is not to be seen. */
export interface LineName {
  key: 'published-high' | 'published-low' | 'high3' | 'low3' | 'mean';
  name: string;
  value: number;
  text: string;
}

export interface OutsideRail {
  side: 'above' | 'below';
  text: string;
}

export interface ChartEvent {
  id: string;
  at: number;
  word: string;
  description: string;
}

export interface ChartFailure {
  id: string;
  from: number;
  to: number;
  open: boolean;
  word: string;
}

export interface ControlChartModel {
  axis: AxisKind;
  /** The part of the time that is shown. */
  from: number;
  to: number;
  /** All of the time there is to be shown. */
  whole: Span;
  /** How many the part shown has, and how many of them cannot stand on this axis. */
  itemCount: number;
  /** What they are called, in the singular: `run`, `test`. */
  noun: string;
  offAxis: number;
  timeTicks: readonly TimeTick[];
  valueAxis: ValueAxis;
  /** What the ticks of the value axis are called. */
  valueTicks: ReadonlyMap<number, string>;
  /** In time order; fewer than there are where those are too many to be told apart. */
  points: readonly ChartPoint[];
  /** The place of each that a signal rests on. */
  places: ReadonlyMap<string, { at: number; drawnAt: number }>;
  /** The hairline: one stretch per epoch, past voided ones. */
  stretches: readonly (readonly { at: number; value: number }[])[];
  /** Other analyzers' lines over this one. */
  overlays: readonly Overlay[];
  limits: readonly LimitStep[];
  rails: readonly RailStep[];
  names: readonly LineName[];
  outside: readonly OutsideRail[];
  /** True where the switch would change the axis. */
  publishedCanBeOutside: boolean;
  epochs: readonly { id: string; at: number }[];
  events: readonly ChartEvent[];
  failures: readonly ChartFailure[];
}

export type FiredRule = RuleId | 'published limit';
