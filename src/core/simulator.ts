import {
  type ControlAssessmentOptions,
  type ControlFinding,
  type ControlVerdict,
  controlVerdict,
  signalFindings,
} from './controlAssessment.ts';
import { severityOf } from './controlPolicy.ts';
import { ControlSeriesJudge, groupsOf } from './controlSeries.ts';
import { isWithinTolerance } from './fixedLimits.ts';
import { impossible, requirePositive } from './impossible.ts';
import { type PolicyHistory, policyAt, policyHistory } from './policySteps.ts';
import type { PointEvaluation, SeriesPoint } from './series.ts';
import { type DlcoUnit, dlcoInMlMinMmHg, type SingleBreathInput, singleBreathDlco } from './singleBreath.ts';

export type SimulatorLevel = 'low' | 'high';

export interface SimulatedLevel {
  level: SimulatorLevel;
  targetMlMinMmHg: number;
  /** As reported. */
  reading: { dlco: number; dlcoUnit: DlcoUnit };
}

/** One session of an analyzer with a precision-gas simulator, with all that its verdict needs. */
export interface SimulatorSession {
  id: string;
  /** In ms. */
  at: number;
  analyzerId: string;
  /** Counts the baseline starts of the analyzer. */
  epoch: number;
  levels: readonly SimulatedLevel[];
  /** How far from its target a level may read, both ends in; that of the day. */
  limits: { dlcoMlMinMmHg: number };
  /** Voided or set aside: it takes part in nothing. */
  excluded?: boolean | undefined;
}

export interface LevelAssessment {
  level: SimulatorLevel;
  dlcoMlMinMmHg: number;
  targetMlMinMmHg: number;
  /** Read less target: what the own limits of the level are made of. */
  deviationMlMinMmHg: number;
  withinPublished: boolean;
  evaluation: PointEvaluation;
}

export interface SimulatorAssessment {
  id: string;
  /** In the order of the session. */
  levels: readonly LevelAssessment[];
  /** R-4s fired between the two levels of the session, and is not off. */
  acrossLevels: boolean;
  verdict: ControlVerdict;
}

/**
 * The uptake that a simulator's gases and volumes stand for, in mL(STPD)/min/mmHg: the analyzer ought to report it.
 * Source: the single-breath equation, see `singleBreathDlco`.
 * @throws {RangeError} if a volume, time, pressure or fraction is impossible, or nothing is taken up.
 * @example simulatorTarget({ vaBtpsL: 5, breathHoldS: 10, barometricMmHg: 760, inspired: { co: 0.003, tracer: 0.003 },
 *   alveolar: { co: 0.0012, tracer: 0.0024 } }) // 24.10
 */
export function simulatorTarget(input: SingleBreathInput): number {
  const targetMlMinMmHg = singleBreathDlco(input);
  if (!(targetMlMinMmHg > 0)) {
    throw impossible('simulatorTarget', 'the uptake', targetMlMinMmHg, 'mL/min/mmHg');
  }
  return targetMlMinMmHg;
}

/**
 * Judges sessions with a simulator, of all analyzers in time order, each by what was known before it; gives the verdicts by the id of
 * the session. Each level of an analyzer is a series of its own, of the deviation from target, so that a new
 * certificate moves no mean. Own limits and rules are those of the analyzer's policy; failures open and end as in
 * `evaluateSeries`. R-4s is also asked within a session: one level beyond +2 SD, the other beyond −2 SD. Where the policy makes it an action, neither
 * level is accepted then, and a failure opens in both.
 * Source of the published limit: Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153. R-4s within one session of two controls:
 * Westgard, Barry & Hunt, Clin Chem 1981;27:493.
 * @throws {RangeError} if sessions are not in time order, an id or a level comes twice, or a number, a closure or a policy is impossible.
 * @example a level that reads 26.1 for a target of 24.0: 2.1 mL/min/mmHg off, beyond the published 2.0
 */
export function assessSimulatorSessions(
  sessions: readonly SimulatorSession[],
  { policyStepsFor, closures = [], onImpossible }: ControlAssessmentOptions = {},
): ReadonlyMap<string, SimulatorAssessment> {
  const caller = 'assessSimulatorSessions';
  const assessments = new Map<string, SimulatorAssessment>();
  const keyOf = ({ analyzerId }: SimulatorSession) => analyzerId;
  for (const ofAnalyzer of groupsOf(caller, sessions, { keyOf, check: checkSession, onImpossible })) {
    const [{ analyzerId }] = ofAnalyzer;
    const history = policyHistory(caller, policyStepsFor?.(analyzerId) ?? []);
    const judgeOf = (level: SimulatorLevel) =>
      new ControlSeriesJudge({
        caller,
        history,
        closures: closures
          .filter(
            (closure) =>
              closure.analyzerId === analyzerId &&
              closure.series.kind === 'simulator' &&
              closure.series.level === level,
          )
          .map(({ at }) => at),
        size: ofAnalyzer.length,
      });
    const judges = { low: judgeOf('low'), high: judgeOf('high') };
    for (const session of ofAnalyzer) assessments.set(session.id, assess(session, { judges, history }));
  }
  return assessments;
}

function assess(
  { id, at, epoch, excluded, levels, limits }: SimulatorSession,
  { judges, history }: { judges: Record<SimulatorLevel, ControlSeriesJudge>; history: PolicyHistory },
): SimulatorAssessment {
  const measured = levels.map(({ level, targetMlMinMmHg, reading }) => {
    const dlcoMlMinMmHg = dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit);
    const deviationMlMinMmHg = dlcoMlMinMmHg - targetMlMinMmHg;
    const withinPublished = isWithinTolerance(deviationMlMinMmHg, 0, limits.dlcoMlMinMmHg);
    const point: SeriesPoint = { id, at, epoch, excluded, value: deviationMlMinMmHg };
    return { level, dlcoMlMinMmHg, targetMlMinMmHg, deviationMlMinMmHg, withinPublished, point };
  });
  // Both are asked before either is judged: what they say together decides whether each may enter its mean.
  const sides = measured.map(({ level, point }) => judges[level].sideBeyondTwoSd(point));
  const severity = severityOf('R-4s', policyAt(history, at));
  const isSplit = sides.includes(1) && sides.includes(-1);
  const isFailedTogether = isSplit && severity === 'action';

  const findings: ControlFinding[] = [];
  const signals: ControlFinding[] = [];
  const judged = measured.map(({ point, ...numbers }): LevelAssessment => {
    const { level, dlcoMlMinMmHg: value, targetMlMinMmHg: target, withinPublished } = numbers;
    const breached = isFailedTogether || !withinPublished;
    const evaluation = judges[level].judge({ ...point, breached });
    const limit = limits.dlcoMlMinMmHg;
    if (!withinPublished)
      findings.push({ kind: 'published-limit', series: level, value, target, limit, beyond: ['absolute'] });
    signals.push(...signalFindings(level, evaluation));
    if (isSplit && severity !== 'off')
      signals.push({ kind: 'signal', series: level, rule: 'R-4s', severity, ids: [id], across: 'levels' });
    return { ...numbers, evaluation };
  });
  const evaluations = judged.map(({ evaluation }) => evaluation);
  return {
    id,
    levels: judged,
    acrossLevels: isSplit && severity !== 'off',
    verdict: controlVerdict([...findings, ...signals], evaluations),
  };
}

const uptakeUnit: DlcoUnit = 'mL/min/mmHg';

function checkSession({ epoch, levels, limits }: SimulatorSession): void {
  if (!Number.isFinite(epoch)) throw impossible('assess', 'epoch', epoch, '');
  if (levels.length === 0) throw new RangeError('assess: the session has no level');
  if (new Set(levels.map(({ level }) => level)).size < levels.length) {
    throw new RangeError('assess: a level comes twice');
  }
  for (const { level, targetMlMinMmHg, reading } of levels) {
    requirePositive('assess', `target of level ${level}`, targetMlMinMmHg, uptakeUnit);
    requirePositive(
      'assess',
      `dlco of level ${level}`,
      dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit),
      uptakeUnit,
    );
  }
  requirePositive('assess', 'limits.dlcoMlMinMmHg', limits.dlcoMlMinMmHg, uptakeUnit);
}
