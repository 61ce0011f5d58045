/** What a control chart shows, in the series' own unit and in milliseconds; where that lies on paper is the drawing's. */
import type { RuleId } from '../../core/index.ts';
import type { Former } from '../amendments.ts';
import type { ValueAxis } from '../parts/valueAxis.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import type { TimeTick } from './chartAxes.ts';

export interface ChartPoint {
  id: string;
  at: number;
  value: number;
  /** Where it is drawn: the value, or the axis's end for a voided run that lies outside. */
  drawnAt: number;
  /** `struck`: voided. `open`: made before own limits could judge. `filled`: judged. */
  dot: 'filled' | 'open' | 'struck';
  /** The larger mark of a run with a signal or a breached published limit. */
  mark: Extract<MarkShape, 'warn' | 'fail'> | null;
  /** What fired, to stand beside the mark; null where the run before says the same. */
  label: string | null;
  /** Which side of the mark is free of the other runs. */
  labelSide: 'above' | 'below';
  /** What is shown of it on hover and focus, line by line. */
  details: {
    when: string;
    value: string;
    /** What amendments replaced. */
    former: readonly Former[];
    z: string;
    verdict: string;
    fired: string;
    note: string;
  };
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
  from: number;
  to: number;
  timeTicks: readonly TimeTick[];
  valueAxis: ValueAxis;
  points: readonly ChartPoint[];
  /** The hairline: one stretch per epoch, past voided runs. */
  stretches: readonly (readonly { at: number; value: number }[])[];
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
