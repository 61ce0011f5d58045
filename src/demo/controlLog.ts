/** The controls of one analyzer as they are written down, each judged by those before it, as the app does. */
import {
  assessBiologicalTests,
  assessSimulatorSessions,
  type BiologicalTest,
  type ControlClosure,
  type PolicyStep,
  type SimulatorSession,
} from '../core/index.ts';
import {
  biologicalTestOf,
  type ControlPlace,
  controlJudgementOf,
  simulatorSessionOf,
} from '../journal/controlJudgement.ts';
import type { Control, ControlJudgement, ControlSeriesName, EntryBody } from '../journal/entries.ts';
import { type Action, iso, writingTime } from './actions.ts';

type Failures = EntryBody<'control-closed'>['failures'];
type ClosingWords = Pick<EntryBody<'control-closed'>, 'cause' | 'correctiveAction' | 'lookBack'>;

export function controlLog(
  analyzerId: string,
  newId: () => string,
  judging: { epoch: () => number; policySteps: readonly PolicyStep[] },
) {
  const actions: Action[] = [];
  const tests: BiologicalTest[] = [];
  const sessions: SimulatorSession[] = [];
  const closures: ControlClosure[] = [];
  let open: Failures = [];

  function judge(control: Control, place: ControlPlace): ControlJudgement {
    const options = { closures, policyStepsFor: () => judging.policySteps };
    if (control.kind === 'biological') tests.push(biologicalTestOf(control, place));
    else sessions.push(simulatorSessionOf(control, place));
    const assessment =
      control.kind === 'biological'
        ? assessBiologicalTests(
            tests.filter(({ subjectId }) => subjectId === control.subjectId),
            options,
          ).get(place.id)
        : assessSimulatorSessions(sessions, options).get(place.id);
    if (assessment === undefined) throw new RangeError(`controlLog: control ${place.id} was not assessed`);
    const failing =
      'levels' in assessment
        ? assessment.levels.filter(({ evaluation }) => evaluation.failureOpen).map(({ level }) => level)
        : (['dlco', 'va'] as const).filter((quantity) => assessment[quantity].failureOpen);
    for (const name of failing) {
      const series = seriesOf(control, name);
      if (open.some((known) => JSON.stringify(known.series) === JSON.stringify(series))) continue;
      open = [...open, { series, openedByControlId: place.id }];
    }
    return controlJudgementOf(assessment);
  }

  return {
    actions,

    record(control: Control, excluded = false): ControlJudgement {
      const controlId = newId();
      const judged = judge(control, { id: controlId, epoch: judging.epoch(), excluded });
      const at = Date.parse(control.madeAt) + writingTime;
      const body = { controlId, control, judged };
      actions.push({ at, by: control.technologistId, kind: 'control-recorded', body });
      return judged;
    },

    /** The last test of a person, as if it had never been judged. */
    strikeOut(at: number, by: string, reason: string): void {
      const last = tests.pop();
      if (last === undefined) throw new RangeError('controlLog: no test to strike out');
      tests.push({ ...last, excluded: true });
      open = open.filter(({ openedByControlId }) => openedByControlId !== last.id);
      actions.push({ at, by, kind: 'control-voided', body: { controlId: last.id, reason } });
    },

    /** All that is open. */
    close(at: number, by: string, said: ClosingWords): void {
      const failures = open;
      open = [];
      for (const { series } of failures) closures.push({ analyzerId, series, at });
      const body = { closureId: newId(), analyzerId, failures, closedAt: iso(at), ...said, signature: null };
      actions.push({ at, by, kind: 'control-closed', body });
    },

    /** A new baseline puts every failure aside. */
    forget(): void {
      open = [];
    },
  };
}

export type ControlLog = ReturnType<typeof controlLog>;

function seriesOf(control: Control, name: 'dlco' | 'va' | 'low' | 'high'): ControlSeriesName {
  if (name === 'low' || name === 'high') return { kind: 'simulator', level: name };
  if (control.kind !== 'biological') throw new RangeError(`controlLog: a session has no series ${name}`);
  return { kind: 'biological', subjectId: control.subjectId, quantity: name };
}
