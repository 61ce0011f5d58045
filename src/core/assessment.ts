import { type ControlPolicy, defaultControlPolicy } from './controlPolicy.ts';
import type { RuleId } from './controlRules.ts';
import { isWithinTolerance, type PublishedLimits, publishedDlcoLimit } from './fixedLimits.ts';
import type { Ambient } from './gas.ts';
import { type RunNumbers, type RunReading, reduceRun, type SyringeSetUp } from './runNumbers.ts';
import { createSeriesEvaluator, type PointEvaluation, type SeriesEvaluator } from './series.ts';
import type { DlcoUnit } from './singleBreath.ts';
import type { Conversion } from './syringe.ts';

export type Method = 'syringe' | 'precision-gas';
export type Route = 'patient-test' | 'built-in';
export type Quantity = 'va' | 'dlco';

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

export type VerdictWord = 'pass' | 'warn' | 'fail';

/** Why a verdict is not a plain pass, as data: the words are made where they are shown. */
export type Finding =
  /** `value` and `limit` are in `unit`; of VA, `value` is the distance from `target`. */
  | { kind: 'published-limit'; quantity: 'va'; value: number; target: number; limit: number; unit: 'L' }
  | { kind: 'published-limit'; quantity: 'dlco'; value: number; target: 0; limit: number; unit: DlcoUnit }
  | {
      kind: 'signal';
      quantity: Quantity;
      rule: RuleId;
      severity: 'action' | 'warning';
      ids: readonly string[];
    }
  | { kind: 'volume-check'; fraction: number; limit: number }
  | { kind: 'breath-hold'; breathHoldS: number; targetS: number; toleranceS: number };

/**
 * `fail`: a published limit is breached or an action rule fires, in VA or in DLCO. `warn`: a warning rule fires, or the
 * volume check or the breath-hold time lies outside its tolerance. `establishing`: VA or DLCO has no own limits yet.
 */
export interface Verdict {
  word: VerdictWord;
  establishing: boolean;
  findings: readonly Finding[];
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
  at: number;
}

export interface AssessmentOptions {
  policyFor?: ((analyzerId: string) => ControlPolicy) | undefined;
  closures?: readonly SeriesClosure[] | undefined;
}

/**
 * From a laboratory's runs, of all analyzers in time order, to the verdict of each by its id. Runs are parted into
 * series by analyzer, method and route; VA and DLCO are judged apart, and a run that breaches the limit of one is
 * breached in that series only.
 * @throws {RangeError} if runs are not in time order, an id comes twice, or a run's numbers are impossible.
 */
export function assessRuns(
  runs: readonly SimulationRun[],
  options: AssessmentOptions = {},
): ReadonlyMap<string, RunAssessment> {
  const assessor = createAssessor(options);
  const assessments = new Map<string, RunAssessment>();
  for (const run of runs) {
    if (assessments.has(run.id)) throw new RangeError(`assessRuns: id ${run.id} comes twice`);
    assessments.set(run.id, assessor.next(run));
  }
  return assessments;
}

export interface Assessor {
  /** Assesses the next run; the result is what `assessRuns` gives for it among all runs. */
  next(run: SimulationRun): RunAssessment;
}

/** The assessment of a laboratory whose runs are not yet at their end: constant time for every further run. */
export function createAssessor(options: AssessmentOptions = {}): Assessor {
  const { policyFor, closures = [] } = options;
  const pairs = new Map<string, { va: SeriesEvaluator; dlco: SeriesEvaluator }>();
  let lastAt = Number.NEGATIVE_INFINITY;

  function pairOf(run: SimulationRun) {
    const key = JSON.stringify([run.analyzerId, run.method, run.route]);
    const known = pairs.get(key);
    if (known !== undefined) return known;
    const policy = policyFor?.(run.analyzerId) ?? defaultControlPolicy;
    const evaluatorOf = (quantity: Quantity) =>
      createSeriesEvaluator(
        policy,
        closures
          .filter((closure) => closure.quantity === quantity && isOfSeries(closure, run))
          .map(({ at }) => at),
      );
    const pair = { va: evaluatorOf('va'), dlco: evaluatorOf('dlco') };
    pairs.set(key, pair);
    return pair;
  }

  return {
    next(run) {
      if (!(run.at >= lastAt)) {
        throw new RangeError(`assessRuns: at of run ${run.id} is ${run.at} ms, not at or after ${lastAt} ms`);
      }
      lastAt = run.at;
      const pair = pairOf(run);
      const numbers = numbersOf(run);
      const { id, at, epoch, excluded } = run;
      const va = pair.va.next({
        id,
        at,
        epoch,
        excluded,
        value: numbers.simulatedVaL,
        breached: !numbers.vaWithinPublished,
      });
      const dlco = pair.dlco.next({
        id,
        at,
        epoch,
        excluded,
        value: numbers.dlcoMlMinMmHg,
        breached: !numbers.dlcoWithinPublished,
      });
      return { id, numbers, va, dlco, verdict: verdictOf(run, numbers, va, dlco) };
    },
  };
}

function numbersOf(run: SimulationRun): RunNumbers {
  try {
    return reduceRun(run);
  } catch (cause) {
    // Among thousands of runs the message must name the one.
    if (cause instanceof RangeError)
      throw new RangeError(`assessRuns: run ${run.id}: ${cause.message}`, { cause });
    throw cause;
  }
}

function isOfSeries(closure: SeriesClosure, run: SimulationRun): boolean {
  return (
    closure.analyzerId === run.analyzerId && closure.method === run.method && closure.route === run.route
  );
}

function verdictOf(
  run: SimulationRun,
  numbers: RunNumbers,
  va: PointEvaluation,
  dlco: PointEvaluation,
): Verdict {
  const findings = [
    ...publishedFindings(run, numbers),
    ...signalFindings('va', va),
    ...signalFindings('dlco', dlco),
  ];
  const isFailed = findings.some(
    (finding) =>
      finding.kind === 'published-limit' || (finding.kind === 'signal' && finding.severity === 'action'),
  );
  findings.push(...conductFindings(run, numbers));
  return {
    word: isFailed ? 'fail' : findings.length > 0 ? 'warn' : 'pass',
    establishing: va.z === null || dlco.z === null,
    findings,
  };
}

function publishedFindings(run: SimulationRun, numbers: RunNumbers): Finding[] {
  const { reading, limits } = run;
  const findings: Finding[] = [];
  if (!numbers.vaWithinPublished) {
    const target = numbers.targetVaL;
    const value = numbers.simulatedVaL - target;
    findings.push({
      kind: 'published-limit',
      quantity: 'va',
      value,
      target,
      limit: limits.vaToleranceL,
      unit: 'L',
    });
  }
  if (!numbers.dlcoWithinPublished) {
    const limit = publishedDlcoLimit(reading.dlcoUnit, limits);
    const unit = reading.dlcoUnit;
    findings.push({ kind: 'published-limit', quantity: 'dlco', value: reading.dlco, target: 0, limit, unit });
  }
  return findings;
}

function signalFindings(quantity: Quantity, evaluation: PointEvaluation): Finding[] {
  return evaluation.signals.map(({ rule, severity, ids }) => ({
    kind: 'signal',
    quantity,
    rule,
    severity,
    ids,
  }));
}

/** How the run was conducted: outside these tolerances its numbers are to be doubted, not its analyzer failed. */
function conductFindings(run: SimulationRun, numbers: RunNumbers): Finding[] {
  const { volumeCheckFraction, breathHoldS } = run.limits;
  const findings: Finding[] = [];
  const fraction = numbers.volumeCheckFraction;
  if (fraction !== null && !isWithinTolerance(fraction, 0, volumeCheckFraction)) {
    findings.push({ kind: 'volume-check', fraction, limit: volumeCheckFraction });
  }
  const held = run.reading.breathHoldS;
  if (held !== undefined && !isWithinTolerance(held, breathHoldS.target, breathHoldS.tolerance)) {
    const { target: targetS, tolerance: toleranceS } = breathHoldS;
    findings.push({ kind: 'breath-hold', breathHoldS: held, targetS, toleranceS });
  }
  return findings;
}
