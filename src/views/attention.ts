/** Every analyzer in use with what it is in, the one that wants somebody first at the top: the order of Today and of the fleet. Pure. */
import type { EntryBody } from '../journal/entries.ts';
import type { Analyzer, Logbook } from '../journal/logbook.ts';
import { outOfService } from '../journal/standing.ts';
import type { ControlFailure } from './controlAssessments.ts';
import type { Failure } from './failures.ts';
import { type LineState, rank, wantsSomebody } from './lineStates.ts';
import type { DueCheck } from './schedule.ts';
import { controlsOf } from './useControlAssessments.ts';

interface CheckInState {
  due: DueCheck;
  state: LineState;
}

export interface AnalyzerStanding<Check extends CheckInState> {
  analyzer: Analyzer;
  /** That of its simulation, or what stands before it: a failure before all else, then that it is out of service. */
  state: LineState;
  /** Open ones, in the order in which they opened. */
  failures: readonly Failure[];
  /** Open ones of its controls, likewise. They lift it like a check that has failed. */
  controlFailures: readonly ControlFailure[];
  /** Null while it is in service. */
  service: EntryBody<'service-set'> | null;
  /** Undefined where simulations are not scheduled. */
  simulation: Check | undefined;
  /** Its other checks that want somebody, the most urgent first; not those whose failure is open and so said already. */
  others: readonly Check[];
}

/** `checksOf`: every check of an analyzer, as `byAnalyzer` groups them. `instant`: ISO 8601, now. */
export function inOrderOfAttention<Check extends CheckInState>(
  logbook: Logbook,
  openFailures: readonly Failure[],
  checksOf: (analyzerId: string) => readonly Check[],
  instant: string,
): readonly AnalyzerStanding<Check>[] {
  const openOfControls = controlsOf(logbook).failures.filter(({ ended }) => ended === null);
  return [...logbook.analyzers.values()]
    .filter(({ retired }) => retired === null)
    .map((analyzer) => {
      const checks = checksOf(analyzer.id);
      const simulation = checks.find(({ due }) => due.check === 'simulation');
      const failures = openFailures.filter(({ analyzerId }) => analyzerId === analyzer.id);
      const controlFailures = openOfControls.filter(({ analyzerId }) => analyzerId === analyzer.id);
      const service = outOfService(logbook, analyzer.id, instant);
      const others = checks
        .filter((check) => check !== simulation && wantsSomebody(check) && !isSaid(check, controlFailures))
        .sort((one, that) => rank(one) - rank(that));
      const state = stateOfAnalyzer(failures, service, simulation);
      return {
        standing: { analyzer, state, failures, controlFailures, service, simulation, others },
        urgency: urgencyOf({ state, others, controlFailures }),
        // After every date, where it has none.
        dueOn: simulation?.due.due.dueOn ?? '~',
      };
    })
    .sort(
      (one, other) =>
        one.urgency - other.urgency ||
        // What the analyzer is in itself comes before what lifts it.
        rank(one.standing) - rank(other.standing) ||
        compare(one.dueOn, other.dueOn),
    )
    .map(({ standing }) => standing);
}

/** A cylinder's checks are those of every analyzer that it is fitted to. */
export function byAnalyzer<Check extends CheckInState>(
  all: readonly Check[],
): (analyzerId: string) => readonly Check[] {
  const grouped = new Map<string, Check[]>();
  for (const check of all) {
    const { about } = check.due;
    for (const id of about.kind === 'analyzer' ? [about.id] : about.fittedTo) {
      const known = grouped.get(id);
      if (known) known.push(check);
      else grouped.set(id, [check]);
    }
  }
  return (analyzerId) => grouped.get(analyzerId) ?? [];
}

/** A failure stands before all else, though the analyzer may be out of service for it; that before what is due. */
function stateOfAnalyzer(
  failures: readonly Failure[],
  service: EntryBody<'service-set'> | null,
  simulation: CheckInState | undefined,
): LineState {
  if (failures.length > 0) return 'failing';
  return service === null ? (simulation?.state ?? 'later') : 'out-of-service';
}

/** A check of every day never lifts an analyzer above another's weekly run, unless it has failed. */
function urgencyOf({
  state,
  others,
  controlFailures,
}: {
  state: LineState;
  others: readonly CheckInState[];
  controlFailures: readonly unknown[];
}): number {
  const lifting = others.filter((check) => check.state === 'failing' || !isDaily(check.due));
  if (controlFailures.length > 0) return rank({ state: 'failing' });
  return Math.min(rank({ state }), ...lifting.map(rank));
}

/** The check that failed is the control whose failure is open. */
const isSaid = ({ due: { check }, state }: CheckInState, controlFailures: readonly ControlFailure[]) =>
  state === 'failing' &&
  controlFailures.some(
    ({ series }) => check === (series.kind === 'biological' ? 'biological-control' : 'simulator'),
  );

const isDaily = ({ plan: { every } }: DueCheck) => every?.unit === 'days' && every.count === 1;
const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);
