/** What an assessor's package is made from: the journal, the logbook that it folds to, and what was worked out from that. */
import type {
  BiologicalAssessment,
  CivilDate,
  RunAssessment,
  SimulatorAssessment,
} from '../../core/index.ts';
import type { ControlSeriesName, Entry, EntryOf, SeriesName } from '../../journal/entries.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import type { SignatureCheck } from '../../journal/signature.ts';

type FailureEnd<K extends 'failure-closed' | 'control-closed'> =
  | { by: 'closure'; closure: EntryOf<K> }
  /** `from`: the instant the new baseline starts at. */
  | { by: 'new-baseline'; from: string };

export interface RunFailure {
  analyzerId: string;
  series: SeriesName;
  openedBy: LoggedRun;
  /** Runs made while it was open, the one that opened it first. */
  runs: readonly LoggedRun[];
  ended: FailureEnd<'failure-closed'> | null;
}

export interface ControlFailure {
  analyzerId: string;
  series: ControlSeriesName;
  openedBy: LoggedControl;
  controls: readonly LoggedControl[];
  ended: FailureEnd<'control-closed'> | null;
}

export interface PackageSource {
  /** Every stored value, as it lies there. */
  rawRows: readonly unknown[];
  /** Those of them that can be read. */
  entries: readonly Entry[];
  logbook: Logbook;
  /** As they come out today, by the run's id. */
  assessments: ReadonlyMap<string, RunAssessment>;
  failures: readonly RunFailure[];
  controls: { get: (controlId: string) => BiologicalAssessment | SimulatorAssessment | undefined };
  controlFailures: readonly ControlFailure[];
  signatures: readonly SignatureCheck[];
}

/** What of a laboratory a package is about. */
export interface PackageScope {
  /** Civil dates, both ends in. */
  from: CivilDate;
  to: CivilDate;
  /** IANA name of the zone in which the period's days begin and end. */
  zone: string;
  analyzerIds: readonly string[];
}
