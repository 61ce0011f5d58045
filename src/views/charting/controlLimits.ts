/** The limits by which the next control of a series will be judged, which the last one itself may have moved. */
import {
  assessBiologicalTests,
  assessSimulatorSessions,
  biologicalPolicy,
  type ControlAssessmentOptions,
  defaultControlPolicy,
  type PointEvaluation,
  type PolicyStep,
  policyAt,
} from '../../core/index.ts';
import {
  biologicalTestOf,
  controlSeriesClosures,
  simulatorSessionOf,
} from '../../journal/controlJudgement.ts';
import type { ControlSeriesName } from '../../journal/entries.ts';
import { epochAt } from '../../journal/fold.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyStepsOf } from '../../journal/standing.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import type { ControlScale } from './controlScale.ts';
import { biologicalPublished, type SeriesControl, type SeriesOfControls } from './controlSeries.ts';
import type { LimitsInForce } from './limitsInForce.ts';

/** By what a series of controls is judged from when on, as its chart reads it. */
export function policyStepsOfControls(
  logbook: Pick<Logbook, 'policies'>,
  { analyzerId, series }: SeriesOfControls,
): PolicyStep[] {
  const steps = policyStepsOf(logbook, analyzerId);
  if (series.kind === 'simulator') return steps;
  return [{ from: Number.NEGATIVE_INFINITY, policy: defaultControlPolicy }, ...steps].map(
    ({ from, policy }) => ({ from, policy: biologicalPolicy(policy) }),
  );
}

/** Asks the core itself: a control that nobody made, dated now, is judged and its limits are read off. */
export function controlLimitsInForce(
  logbook: Logbook,
  named: SeriesOfControls,
  { items, scale }: { items: readonly SeriesControl[]; scale: ControlScale },
  now: number,
): LimitsInForce & { firstMean: number | null; firstCount: number } {
  const at = Math.max(now, items.at(-1)?.at ?? now);
  const policy = policyAt(policyStepsOfControls(logbook, named), at);
  const next = nextOf(logbook, named, items, at);
  if (next === null) return { n: 0, own: null, policy, published: null, firstMean: null, firstCount: 0 };
  const { n, mean, sd } = next.evaluation;
  const limits = checkLimitsAt(logbook, new Date(at).toISOString());
  const published = publishedOf(named.series, next.firstTests.meanMlMinMmHg, limits);
  return {
    n,
    own: mean === null || sd === null ? null : { mean: scale.inUnit(mean), sd: scale.inUnit(sd) },
    policy,
    published: published && {
      low: scale.inUnit(published.low),
      high: scale.inUnit(published.high),
      edition: limits.edition,
    },
    firstMean: next.firstTests.meanMlMinMmHg && scale.inUnit(next.firstTests.meanMlMinMmHg),
    firstCount: next.firstTests.n,
  };
}

function publishedOf(
  series: ControlSeriesName,
  firstMean: number | null,
  { biological, simulator }: ReturnType<typeof checkLimitsAt>,
): { low: number; high: number } | null {
  if (series.kind === 'simulator') return { low: -simulator.dlcoMlMinMmHg, high: simulator.dlcoMlMinMmHg };
  return series.quantity === 'va' ? null : biologicalPublished(firstMean, biological);
}

interface Next {
  evaluation: PointEvaluation;
  firstTests: { n: number; meanMlMinMmHg: number | null };
}

const nextId = 'the-next-control';

/** Null where there is none to take the place of, or it could not be judged. */
function nextOf(
  logbook: Logbook,
  { analyzerId, series }: SeriesOfControls,
  items: readonly SeriesControl[],
  at: number,
): Next | null {
  const last = items.at(-1)?.logged.control;
  if (last === undefined) return null;
  const madeAt = new Date(at).toISOString();
  const options: ControlAssessmentOptions = {
    policyStepsFor: () => policyStepsOf(logbook, analyzerId),
    closures: controlSeriesClosures(logbook),
  };
  const place = {
    id: nextId,
    epoch: epochAt(logbook.baselineStarts, analyzerId, madeAt),
    excluded: false,
  };
  const placed = [...items.map(({ logged }) => logged), { ...place, control: { ...last, madeAt } }];
  if (series.kind === 'biological') {
    const tests = placed.flatMap(({ control, id, epoch, excluded }) =>
      control.kind === 'biological' ? [biologicalTestOf(control, { id, epoch, excluded })] : [],
    );
    const judged = assessBiologicalTests(tests, options).get(nextId);
    return judged ? { evaluation: judged[series.quantity], firstTests: judged.firstTests } : null;
  }
  const sessions = placed.flatMap(({ control, id, epoch, excluded }) =>
    control.kind === 'simulator' ? [simulatorSessionOf(control, { id, epoch, excluded })] : [],
  );
  const judged = assessSimulatorSessions(sessions, options).get(nextId);
  const level = judged?.levels.find((one) => one.level === series.level);
  return level ? { evaluation: level.evaluation, firstTests: { n: 0, meanMlMinMmHg: null } } : null;
}
