/** What the controls of a logbook come to: each assessed by the core, and the failures that its series tell of. Pure. */
import {
  assessBiologicalTests,
  assessSimulatorSessions,
  type BiologicalAssessment,
  type CheckLimits,
  type ControlAssessmentOptions,
  type PointEvaluation,
  publishedCheckLimits,
  type SimulatorAssessment,
} from '../core/index.ts';
import {
  biologicalTestOf,
  type ControlPlace,
  controlJudgementOf,
  controlSeriesClosures,
  simulatorSessionOf,
} from '../journal/controlJudgement.ts';
import type { Control, ControlSeriesName } from '../journal/entries.ts';
import { epochAt } from '../journal/fold.ts';
import type { Logbook, LoggedControl } from '../journal/logbook.ts';
import { adoptedCheckLimitsAt, policyStepsOf, subjectStateAt } from '../journal/standing.ts';

export type ControlAssessment = BiologicalAssessment | SimulatorAssessment;

export interface ControlAssessments {
  /** By the control's id; undefined for one whose numbers cannot be. */
  get: (controlId: string) => ControlAssessment | undefined;
  biological: ReadonlyMap<string, BiologicalAssessment>;
  simulator: ReadonlyMap<string, SimulatorAssessment>;
  /** Controls whose numbers cannot be, such as a damaged or foreign entry may hold. */
  impossible: readonly { controlId: string; problem: string }[];
}

/** What is written on record of an assessment. */
export const judgementOf = controlJudgementOf;

/** The limits of controls and other checks made at an ISO 8601 instant: those the laboratory adopted, or the published ones. */
export const checkLimitsAt = (logbook: Pick<Logbook, 'checkLimitEditions'>, instant: string): CheckLimits =>
  adoptedCheckLimitsAt(logbook, instant) ?? publishedCheckLimits;

type Judging = Pick<Logbook, 'controls' | 'controlClosures' | 'policies'>;
type Placed = ControlPlace & { control: Control };

/** Every control, in time order, each by what was known before it and by its analyzer's policy of its own day. */
export function assessControls(logbook: Judging): ControlAssessments {
  const impossible: { controlId: string; problem: string }[] = [];
  const { biological, simulator } = assessPlaced(logbook.controls, logbook, (controlId, { message }) => {
    impossible.push({ controlId, problem: message });
  });
  return { get: (id) => biological.get(id) ?? simulator.get(id), biological, simulator, impossible };
}

function assessPlaced(
  placed: readonly Placed[],
  logbook: Omit<Judging, 'controls'>,
  onImpossible: ControlAssessmentOptions['onImpossible'],
) {
  const options: ControlAssessmentOptions = {
    policyStepsFor: (analyzerId) => policyStepsOf(logbook, analyzerId),
    closures: controlSeriesClosures(logbook),
    onImpossible,
  };
  const tests = placed.flatMap(({ control, id, epoch, excluded }) =>
    control.kind === 'biological' ? [biologicalTestOf(control, { id, epoch, excluded })] : [],
  );
  const sessions = placed.flatMap(({ control, id, epoch, excluded }) =>
    control.kind === 'simulator' ? [simulatorSessionOf(control, { id, epoch, excluded })] : [],
  );
  return {
    biological: assessBiologicalTests(tests, options),
    simulator: assessSimulatorSessions(sessions, options),
  };
}

const typed = 'being-typed';

type JudgingTyped = Judging & Pick<Logbook, 'baselineStarts' | 'subjectStates'>;

/**
 * A control that is not yet written, judged as it will be when it is: behind those of its analyzer that are not later.
 * `replacedId`: the control that it amends, which is not among those.
 * @throws {RangeError} if its numbers are impossible.
 */
export function assessTyped(control: Control, logbook: JudgingTyped, replacedId?: string): ControlAssessment {
  const { analyzerId, madeAt, kind } = control;
  const replaced = logbook.controls.find(({ id }) => id === replacedId);
  const earlier = logbook.controls.filter(
    (other) =>
      other !== replaced &&
      other.control.kind === kind &&
      other.control.analyzerId === analyzerId &&
      other.at <= Date.parse(madeAt),
  );
  const isOfExcluded =
    kind === 'biological' && subjectStateAt(logbook, control.subjectId, madeAt) === 'excluded';
  const place = {
    id: typed,
    epoch: epochAt(logbook.baselineStarts, analyzerId, madeAt),
    excluded: isOfExcluded || (replaced !== undefined && replaced.setAside !== null),
  };
  const { biological, simulator } = assessPlaced(
    [...earlier, { ...place, control }],
    logbook,
    (id, problem) => {
      if (id === typed) throw problem;
    },
  );
  const assessment = biological.get(typed) ?? simulator.get(typed);
  if (assessment === undefined) throw new Error('assessTyped: the control was not assessed');
  return assessment;
}

export interface ControlSeriesEvaluation {
  series: ControlSeriesName;
  evaluation: PointEvaluation;
}

/** The series that a control is a point of, and how it was judged in each. */
export function evaluationsOf(control: Control, assessment: ControlAssessment): ControlSeriesEvaluation[] {
  if ('levels' in assessment) {
    return assessment.levels.map(({ level, evaluation }) => ({
      series: { kind: 'simulator', level },
      evaluation,
    }));
  }
  if (control.kind !== 'biological') return [];
  const { subjectId } = control;
  return (['dlco', 'va'] as const).map((quantity) => ({
    series: { kind: 'biological', subjectId, quantity },
    evaluation: assessment[quantity],
  }));
}

/** One string per series of an analyzer, to group and compare by. */
export const controlSeriesKey = (analyzerId: string, series: ControlSeriesName) =>
  series.kind === 'biological'
    ? `${analyzerId} biological ${series.subjectId} ${series.quantity}`
    : `${analyzerId} simulator ${series.level}`;

export interface ControlFailure {
  analyzerId: string;
  series: ControlSeriesName;
  openedBy: LoggedControl;
  /** Those of the series made while it was open, the one that opened it first. */
  controls: readonly LoggedControl[];
  /** `null` while nobody has closed it and no new baseline has put it aside. */
  ended: ControlFailureEnd | null;
}

type ControlFailureEnd =
  | { by: 'closure'; closure: Logbook['controlClosures'][number] }
  /** `from`: the instant the new baseline starts at. */
  | { by: 'new-baseline'; from: string };

/** Every failure of a control's series that there was, in the order in which they opened. */
export function listControlFailures(
  logbook: Pick<Logbook, 'controls' | 'controlClosures' | 'baselineStarts'>,
  assessments: Pick<ControlAssessments, 'get'>,
): readonly ControlFailure[] {
  const failures: (ControlFailure & { controls: LoggedControl[] })[] = [];
  const newest = new Map<string, ControlFailure & { controls: LoggedControl[] }>();
  for (const logged of logbook.controls) {
    const { control, voided, at } = logged;
    const assessment = assessments.get(logged.id);
    if (assessment === undefined || voided !== null) continue;
    for (const { series, evaluation } of evaluationsOf(control, assessment)) {
      if (!evaluation.failureOpen) continue;
      const key = controlSeriesKey(control.analyzerId, series);
      const known = newest.get(key);
      if (known !== undefined && !isOver(known.ended, at)) {
        known.controls.push(logged);
        continue;
      }
      const { analyzerId } = control;
      const ended = endOf(logbook, control, series);
      const failure = { analyzerId, series, openedBy: logged, controls: [logged], ended };
      newest.set(key, failure);
      failures.push(failure);
    }
  }
  return failures;
}

/** What ended the failure that a control opened: a closure or a new baseline, whichever came first. */
function endOf(
  { controlClosures, baselineStarts }: Pick<Logbook, 'controlClosures' | 'baselineStarts'>,
  { analyzerId, madeAt }: Control,
  series: ControlSeriesName,
): ControlFailureEnd | null {
  const key = controlSeriesKey(analyzerId, series);
  const closure = controlClosures
    .filter(
      ({ body }) =>
        body.closedAt >= madeAt &&
        body.failures.some((closed) => controlSeriesKey(body.analyzerId, closed.series) === key),
    )
    .sort((one, other) => Date.parse(one.body.closedAt) - Date.parse(other.body.closedAt))[0];
  const from = baselineStarts
    .filter(({ body }) => body.analyzerId === analyzerId && body.from > madeAt)
    .map(({ body }) => body.from)
    .sort()[0];
  if (closure !== undefined && (from === undefined || closure.body.closedAt <= from)) {
    return { by: 'closure', closure };
  }
  return from === undefined ? null : { by: 'new-baseline', from };
}

/** Whether a control made at that time comes after the end: one at the closure's own instant is still in the failure. */
function isOver(ended: ControlFailureEnd | null, at: number): boolean {
  if (ended === null) return false;
  return ended.by === 'closure' ? at > Date.parse(ended.closure.body.closedAt) : at >= Date.parse(ended.from);
}
