import {
  type ControlAssessmentOptions,
  type ControlFinding,
  type ControlVerdict,
  controlVerdict,
  signalFindings,
} from './controlAssessment.ts';
import type { ControlPolicy } from './controlPolicy.ts';
import { ControlSeriesJudge, groupsOf } from './controlSeries.ts';
import { isWithinTolerance } from './fixedLimits.ts';
import { impossible, requirePositive } from './impossible.ts';
import { type PolicyHistory, policyHistory } from './policySteps.ts';
import type { PointEvaluation } from './series.ts';
import { type DlcoUnit, dlcoInMlMinMmHg } from './singleBreath.ts';
import { mean } from './statistics.ts';

/** How many tests of an epoch make the mean that the published limits are laid about. Source: Hegewald et al., Respiration 2012. */
export const firstTestCount = 6;

/** Tests in a person's full baseline, as of the runs. */
const baselineTests = 20;

export interface BiologicalLimits {
  /** A DLCO beyond either of the two from the mean of the first tests is out; both ends are in. */
  fraction: number;
  dlcoMlMinMmHg: number;
}

/** One test of an analyzer by a person, with all that its verdict needs. */
export interface BiologicalTest {
  id: string;
  /** In ms. */
  at: number;
  analyzerId: string;
  subjectId: string;
  /** Counts the baseline starts of the analyzer. */
  epoch: number;
  /** As reported; VA in litres BTPS. */
  reading: { dlco: number; dlcoUnit: DlcoUnit; vaL: number };
  /** Those in force on the day. */
  limits: BiologicalLimits;
  /** Voided, set aside, or of a person who was excluded: it takes part in nothing. */
  excluded?: boolean | undefined;
}

export interface BiologicalAssessment {
  id: string;
  dlcoMlMinMmHg: number;
  vaL: number;
  /** Of the epoch, before this test and not excluded: how many of the first six there were, and their mean once all were there. */
  firstTests: { n: number; meanMlMinMmHg: number | null };
  /** DLCO less that mean, and as a fraction of it; null before there is one, as is `withinPublished`. */
  offMlMinMmHg: number | null;
  offFraction: number | null;
  withinPublished: boolean | null;
  dlco: PointEvaluation;
  va: PointEvaluation;
  verdict: ControlVerdict;
}

/**
 * By what a person's series on an analyzer is judged: severities, EWMA and CUSUM of the analyzer's policy, but own limits from
 * six tests on, frozen at twenty, and widened to the prediction factors. A person is tested too seldom to wait for more, and plain mean
 * ± 3 SD of six tests alarms falsely on 3.9 % of good tests for 0.27 %.
 * Source of the figure: 2 · P(t(5) < −3/√(1 + 1/6)), the t-distribution of the prediction interval (see `predictionFactor`).
 * @example biologicalPolicy(defaultControlPolicy).minimumSize // 6
 */
export function biologicalPolicy(policy: ControlPolicy): ControlPolicy {
  return {
    ...policy,
    limits: 'baseline',
    baselineSize: baselineTests,
    minimumSize: firstTestCount,
    smallSample: true,
  };
}

/**
 * Judges the tests of analyzers by persons, of all analyzers and persons in time order, each by what was known before it; gives the verdicts by
 * the id of the test. The tests of one person on one analyzer are a pair of series, DLCO and VA. DLCO has published limits, about the mean
 * of the first six tests of the epoch that are not excluded; before these, nothing is judged at all. Own limits are those of
 * `biologicalPolicy`. Failures open and end as in `evaluateSeries`, in the series that they are of.
 * Source: limits of Hegewald et al., Respiration 2012 (abstract); rules as of the runs.
 * @throws {RangeError} if tests are not in time order, an id comes twice, or a number, a closure or a policy is impossible.
 * @example six tests of 25.0 mL/min/mmHg on average, then 28.1: 12.4 % and 3.1 off, beyond both limits
 */
export function assessBiologicalTests(
  tests: readonly BiologicalTest[],
  { policyStepsFor, closures = [], onImpossible }: ControlAssessmentOptions = {},
): ReadonlyMap<string, BiologicalAssessment> {
  const caller = 'assessBiologicalTests';
  const assessments = new Map<string, BiologicalAssessment>();
  const keyOf = ({ analyzerId, subjectId }: BiologicalTest) => JSON.stringify([analyzerId, subjectId]);
  for (const ofPair of groupsOf(caller, tests, { keyOf, check: checkTest, onImpossible })) {
    const [{ analyzerId, subjectId }] = ofPair;
    const history = historyOf(caller, policyStepsFor?.(analyzerId) ?? []);
    const closuresOf = (quantity: 'dlco' | 'va') =>
      closures
        .filter(
          (closure) =>
            closure.analyzerId === analyzerId &&
            closure.series.kind === 'biological' &&
            closure.series.subjectId === subjectId &&
            closure.series.quantity === quantity,
        )
        .map(({ at }) => at);
    const size = ofPair.length;
    const dlco = new ControlSeriesJudge({ caller, history, closures: closuresOf('dlco'), size });
    const va = new ControlSeriesJudge({ caller, history, closures: closuresOf('va'), size });
    const first = new FirstTests();
    for (const test of ofPair) assessments.set(test.id, assess(test, { dlco, va, first }));
  }
  return assessments;
}

function historyOf(caller: string, steps: Parameters<typeof policyHistory>[1]): PolicyHistory {
  const [first, ...later] = policyHistory(caller, steps);
  const adapted = ({ from, policy }: typeof first) => ({ from, policy: biologicalPolicy(policy) });
  return [adapted(first), ...later.map(adapted)];
}

/** The first tests of the epoch in force. */
class FirstTests {
  #epoch = Number.NaN;
  #values: number[] = [];

  /** What was known before a test of that epoch. */
  before(epoch: number): BiologicalAssessment['firstTests'] {
    const values = epoch === this.#epoch ? this.#values : [];
    const isComplete = values.length === firstTestCount;
    return { n: values.length, meanMlMinMmHg: isComplete ? (mean(values) ?? null) : null };
  }

  take(epoch: number, dlcoMlMinMmHg: number): void {
    if (epoch !== this.#epoch) this.#values = [];
    this.#epoch = epoch;
    if (this.#values.length < firstTestCount) this.#values.push(dlcoMlMinMmHg);
  }
}

function assess(
  test: BiologicalTest,
  series: { dlco: ControlSeriesJudge; va: ControlSeriesJudge; first: FirstTests },
): BiologicalAssessment {
  const { id, at, epoch, excluded, reading } = test;
  const dlcoMlMinMmHg = dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit);
  const firstTests = series.first.before(epoch);
  if (excluded !== true) series.first.take(epoch, dlcoMlMinMmHg);

  const target = firstTests.meanMlMinMmHg;
  const breach = target === null ? null : publishedBreach(dlcoMlMinMmHg, target, test.limits);
  const withinPublished = target === null ? null : breach === null;
  const point = { id, at, epoch, excluded };
  const dlco = series.dlco.judge({ ...point, value: dlcoMlMinMmHg, breached: breach !== null });
  const va = series.va.judge({ ...point, value: reading.vaL });
  const findings = [
    ...(breach === null ? [] : [breach]),
    ...signalFindings('dlco', dlco),
    ...signalFindings('va', va),
  ];
  return {
    id,
    dlcoMlMinMmHg,
    vaL: reading.vaL,
    firstTests,
    offMlMinMmHg: target === null ? null : dlcoMlMinMmHg - target,
    offFraction: target === null ? null : dlcoMlMinMmHg / target - 1,
    withinPublished,
    dlco,
    va,
    verdict: controlVerdict(findings, [dlco, va]),
  };
}

/**
 * How far a DLCO may lie from the mean of the first tests, in mL/min/mmHg: by the narrower of the two limits.
 * @example biologicalReach(15, publishedCheckLimits.biological) // 1.8: 12 % of 15, since that is less than 3.0
 */
export const biologicalReach = (
  meanMlMinMmHg: number,
  { fraction, dlcoMlMinMmHg }: BiologicalLimits,
): number => Math.min(fraction * meanMlMinMmHg, dlcoMlMinMmHg);

function publishedBreach(value: number, target: number, limits: BiologicalLimits): ControlFinding | null {
  const beyond: ('fraction' | 'absolute')[] = [];
  if (!isWithinTolerance(value / target, 1, limits.fraction)) beyond.push('fraction');
  if (!isWithinTolerance(value, target, limits.dlcoMlMinMmHg)) beyond.push('absolute');
  if (beyond.length === 0) return null;
  const limit = biologicalReach(target, limits);
  return { kind: 'published-limit', series: 'dlco', value, target, limit, beyond };
}

function checkTest({ epoch, reading, limits }: BiologicalTest): void {
  if (!Number.isFinite(epoch)) throw impossible('assess', 'epoch', epoch, '');
  requirePositive('assess', 'dlco', dlcoInMlMinMmHg(reading.dlco, reading.dlcoUnit), 'mL/min/mmHg');
  requirePositive('assess', 'vaL', reading.vaL, 'L');
  requirePositive('assess', 'limits.fraction', limits.fraction, 'of the mean');
  requirePositive('assess', 'limits.dlcoMlMinMmHg', limits.dlcoMlMinMmHg, 'mL/min/mmHg');
}
