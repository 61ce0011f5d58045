import type { PublishedLimits } from './fixedLimits.ts';
import type { Ambient } from './gas.ts';
import type { RunNumbers, RunReading, SyringeSetUp } from './runNumbers.ts';
import type { PointEvaluation } from './series.ts';
import type { Conversion } from './syringe.ts';
import type { Quantity, Verdict } from './verdict.ts';

export type Method = 'syringe' | 'precision-gas';
export type Route = 'patient-test' | 'built-in';

/** One run as recorded, with all that its verdict needs. */
export interface SimulationRun {
  id: string;
  /** When the run was made, in ms. */
  at: number;
  analyzerId: string;
  method: Method;
  route: Route;
  /** Counts the baseline starts of its analyzer. */
  epoch: number;
  ambient: Ambient;
  conversion: Conversion;
  reading: RunReading;
  syringe: SyringeSetUp;
  analyzerDeadSpaceL: number;
  /** Those in force on the day. */
  limits: PublishedLimits;
  /** Voided, or taken out of the statistics by a supervisor. */
  excluded?: boolean | undefined;
}

export interface RunAssessment {
  id: string;
  numbers: RunNumbers;
  va: PointEvaluation;
  dlco: PointEvaluation;
  verdict: Verdict;
}

/** A supervisor's closure of a failure of one series. */
export interface SeriesClosure {
  analyzerId: string;
  method: Method;
  route: Route;
  quantity: Quantity;
  /** In ms. */
  at: number;
}
