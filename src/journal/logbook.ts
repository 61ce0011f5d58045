/**
 * The logbook: what the journal's entries say when they are read from first to last. It is computed, never stored.
 */
import type { SimulationRun } from '../core/index.ts';
import type {
  AnalyzerDescription,
  Control,
  CylinderDescription,
  Entry,
  EntryOf,
  Role,
  RunBody,
  SubjectDescription,
  SyringeDescription,
} from './entries.ts';

export interface Retirement {
  at: string;
  /** Id of the technologist who retired it. */
  by: string;
  reason: string;
}

export interface Technologist {
  id: string;
  name: string;
  initials: string;
  role: Role;
  retired: Retirement | null;
  /** The entries that made it what it is, oldest first. */
  history: readonly Entry[];
}

export interface Analyzer {
  id: string;
  /** As it stands after the last change. Each run keeps its own copy of what it was judged with. */
  description: AnalyzerDescription;
  retired: Retirement | null;
  history: readonly Entry[];
}

export interface Syringe {
  id: string;
  description: SyringeDescription;
  retired: Retirement | null;
  history: readonly Entry[];
}

/** A cylinder of test gas. */
export interface Cylinder {
  id: string;
  description: CylinderDescription;
  retired: Retirement | null;
  history: readonly Entry[];
}

/** A person who serves as a biological control. */
export interface Subject {
  id: string;
  description: SubjectDescription;
  /** Left for good. */
  retired: Retirement | null;
  history: readonly Entry[];
}

/** A test of an analyzer with a person or a simulator. */
export interface LoggedControl {
  id: string;
  entry: EntryOf<'control-recorded'>;
  /** As it stands after the newest amendment. */
  control: Control;
  /** Oldest first. */
  amendments: readonly EntryOf<'control-amended'>[];
  voided: { at: string; by: string; reason: string } | null;
  setAside: { at: string; by: string; reason: string } | null;
  /** In ms. */
  at: number;
  /** Counts the baseline starts of its analyzer. */
  epoch: number;
  /** Voided, set aside, or of a person who was excluded when it was made: takes part in no mean and no pattern. */
  excluded: boolean;
}

/** A check other than a simulation, as it was noted. */
export interface LoggedCheck {
  id: string;
  entry: EntryOf<'check-done'>;
  voided: { at: string; by: string; reason: string } | null;
}

export interface LoggedRun {
  id: string;
  entry: EntryOf<'run-recorded'>;
  /** As it stands after the newest amendment. `judged` is the verdict of the day and stays what it was. */
  body: RunBody;
  /** Oldest first. What each replaced is in the one before it, and at first in `entry`. */
  amendments: readonly EntryOf<'run-amended'>[];
  voided: { at: string; by: string; reason: string } | null;
  /** Taken out of every mean and pattern by a supervisor, though it stands: null while it is not. */
  setAside: { at: string; by: string; reason: string } | null;
  /** The run as the core reads it: numbers only, with its epoch, and excluded when voided or set aside. */
  simulation: SimulationRun;
}

/** A batch of imported runs. */
export interface ImportBatch {
  id: string;
  entry: EntryOf<'runs-imported'>;
  voided: LoggedRun['voided'];
}

/** Something in the journal that does not add up. Nothing is thrown away for it and nothing stops. */
export interface LogbookProblem {
  entryId: string;
  sentence: string;
}

export interface Logbook {
  technologists: ReadonlyMap<string, Technologist>;
  analyzers: ReadonlyMap<string, Analyzer>;
  syringes: ReadonlyMap<string, Syringe>;
  /** By the moment the run was made, then by fold order. */
  runs: readonly LoggedRun[];
  events: readonly EntryOf<'event-recorded'>[];
  baselineStarts: readonly EntryOf<'baseline-started'>[];
  closures: readonly EntryOf<'failure-closed'>[];
  imports: ReadonlyMap<string, ImportBatch>;
  /** Every key that was ever registered, by its id, in the order of registration. */
  keys: ReadonlyMap<string, EntryOf<'key-registered'>>;
  cylinders: ReadonlyMap<string, Cylinder>;
  /** The kinds below each in fold order; what holds at a time is read from them in standing.ts. */
  fittings: readonly EntryOf<'cylinder-fitted'>[];
  services: readonly EntryOf<'service-set'>[];
  drops: readonly EntryOf<'syringe-dropped'>[];
  checks: readonly LoggedCheck[];
  schedules: readonly EntryOf<'schedule-set'>[];
  laboratory: readonly EntryOf<'laboratory-described'>[];
  limitEditions: readonly EntryOf<'limits-adopted'>[];
  policies: readonly EntryOf<'policy-set'>[];
  actions: readonly EntryOf<'action-taken'>[];
  lookBacks: readonly EntryOf<'look-back-reviewed'>[];
  closingRules: readonly EntryOf<'closing-rules-set'>[];
  acceptedBaselines: readonly EntryOf<'baseline-accepted'>[];
  signOffs: readonly EntryOf<'period-signed'>[];
  subjects: ReadonlyMap<string, Subject>;
  subjectStates: readonly EntryOf<'subject-state-set'>[];
  /** By the moment each was made, then by fold order. */
  controls: readonly LoggedControl[];
  controlClosures: readonly EntryOf<'control-closed'>[];
  checkLimitEditions: readonly EntryOf<'check-limits-adopted'>[];
  gaps: readonly EntryOf<'gap-explained'>[];
  problems: readonly LogbookProblem[];
  entryCount: number;
  /** The latest instant that any entry was written at; null for an empty journal. */
  newestAt: string | null;
}
