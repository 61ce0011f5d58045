/** What the judgements of a biological control and of a simulator have in common. */
import type { RuleId } from './controlRules.ts';
import type { PolicyStep } from './policySteps.ts';
import type { PointEvaluation } from './series.ts';
import type { VerdictWord } from './verdict.ts';

/** A person's DLCO or VA, or a level of a simulator. */
export type ControlSeries = 'dlco' | 'va' | 'low' | 'high';

/** Why a control's verdict is not a plain pass, as data: the words are made where they are shown. */
export type ControlFinding =
  /** `value` read and its `target`, and how far it may lie from that, all in mL/min/mmHg. */
  | {
      kind: 'published-limit';
      series: 'dlco' | 'low' | 'high';
      value: number;
      target: number;
      limit: number;
      /** Which limits it lies beyond: one that is a fraction of the target, or one in mL/min/mmHg. */
      beyond: readonly ('fraction' | 'absolute')[];
    }
  | {
      kind: 'signal';
      series: ControlSeries;
      rule: RuleId;
      severity: 'action' | 'warning';
      /** The controls of the pattern, oldest first. */
      ids: readonly string[];
      /** `levels`: between the two levels of one session. */
      across: 'tests' | 'levels';
    };

/** As of a run: `fail` at a breached limit or an action signal, `warn` at a warning; `establishing` while a series has no own limits. */
export interface ControlVerdict {
  word: VerdictWord;
  establishing: boolean;
  findings: readonly ControlFinding[];
}

/** A supervisor's closure of a failure of one series of controls. */
export interface ControlClosure {
  analyzerId: string;
  series:
    | { kind: 'biological'; subjectId: string; quantity: 'dlco' | 'va' }
    | { kind: 'simulator'; level: 'low' | 'high' };
  /** In ms. */
  at: number;
}

export interface ControlAssessmentOptions {
  /** How an analyzer's policy changed, in any order; before the first step, and without any, the default policy is in force. */
  policyStepsFor?: ((analyzerId: string) => readonly PolicyStep[]) | undefined;
  closures?: readonly ControlClosure[] | undefined;
  /**
   * Called for a control whose numbers cannot be, such as a damaged or foreign record may hold: it then has no
   * assessment and takes part in nothing. Without it such a control is an error.
   */
  onImpossible?: ((controlId: string, problem: RangeError) => void) | undefined;
}

/** The signals of one series' evaluation as findings. */
export function signalFindings(series: ControlSeries, { signals }: PointEvaluation): ControlFinding[] {
  return signals.map(({ rule, severity, ids }) => ({
    kind: 'signal',
    series,
    rule,
    severity,
    ids,
    across: 'tests',
  }));
}

/** Joins what the published limits and the control rules say of the series of one control. */
export function controlVerdict(
  findings: readonly ControlFinding[],
  evaluations: readonly PointEvaluation[],
): ControlVerdict {
  const isFailed = findings.some((finding) => finding.kind !== 'signal' || finding.severity === 'action');
  return {
    word: isFailed ? 'fail' : findings.length > 0 ? 'warn' : 'pass',
    establishing: evaluations.some(({ z }) => z === null),
    findings,
  };
}
