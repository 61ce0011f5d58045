import {
  type ControlPolicy,
  defaultSeverity,
  type PointEvaluation,
  predictionFactor,
  type RuleId,
  ruleIds,
  type SeriesPoint,
} from '../../../src/core/index.ts';

interface Judged {
  id: string;
  value: number;
  z: number;
}

/**
 * The definitions word by word, with no thought of speed: for each run everything is looked up anew in lists of the runs
 * before it. Written apart from the streaming evaluation, to be held against it.
 */
export function referenceEvaluation(
  points: readonly SeriesPoint[],
  policyOfDay: (at: number) => ControlPolicy,
  closures: readonly number[],
): PointEvaluation[] {
  let policy: ControlPolicy | null = null;
  let accepted: number[] = [];
  let judged: Judged[] = [];
  let openedAt: number | null = null;
  let epoch: number | null = null;
  const closureOf = (opened: number) =>
    Math.min(...closures.filter((closure) => closure >= opened), Infinity);

  return points.map((point) => {
    if (point.excluded) {
      const isOpen = openedAt !== null && point.at <= closureOf(openedAt);
      return blank(point.id, policy === null ? 0 : limitsOf(accepted, policy).length, false, isOpen);
    }
    const today = policyOfDay(point.at);
    if (policy !== null && inWords(policy) !== inWords(today)) judged = [];
    policy = today;
    if (point.epoch !== epoch) {
      epoch = point.epoch;
      accepted = [];
      judged = [];
      openedAt = null;
    }
    if (openedAt !== null && point.at > closureOf(openedAt)) {
      openedAt = null;
      judged = [];
    }
    const base = limitsOf(accepted, policy);
    const stats = base.length >= policy.minimumSize ? meanAndSd(base) : null;
    let evaluation = blank(point.id, base.length, false, false);
    if (stats !== null && stats.sd > 0) {
      judged = [...judged, { id: point.id, value: point.value, z: (point.value - stats.mean) / stats.sd }];
      evaluation = { ...evaluation, ...stats, ...read(judged, base.length, policy) };
    }
    const isAction = evaluation.signals.some(({ severity }) => severity === 'action');
    if (openedAt === null && (point.breached || isAction)) openedAt = point.at;
    if (openedAt === null) accepted = [...accepted, point.value];
    return { ...evaluation, accepted: openedAt === null, failureOpen: openedAt !== null };
  });
}

function inWords(policy: ControlPolicy): string {
  return JSON.stringify([
    ruleIds.map((rule) => policy.severity[rule] ?? defaultSeverity[rule]),
    [policy.limits, policy.baselineSize, policy.minimumSize, policy.smallSample],
    [policy.ewma.lambda, policy.ewma.limit, policy.cusum.slack, policy.cusum.decision],
  ]);
}

function blank(id: string, n: number, accepted: boolean, failureOpen: boolean): PointEvaluation {
  return {
    id,
    n,
    mean: null,
    sd: null,
    z: null,
    ewma: null,
    cusumHigh: null,
    cusumLow: null,
    signals: [],
    accepted,
    failureOpen,
  };
}

function limitsOf(accepted: readonly number[], policy: ControlPolicy): readonly number[] {
  return policy.limits === 'baseline'
    ? accepted.slice(0, policy.baselineSize)
    : accepted.slice(-policy.baselineSize);
}

function meanAndSd(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  // Equal eighths have a mean that is exact: their squares are exactly 0.
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

function read(judged: readonly Judged[], n: number, policy: ControlPolicy) {
  const two = policy.smallSample ? predictionFactor(n, 2) : 2;
  const three = policy.smallSample ? predictionFactor(n, 3) : 3;
  const { lambda, limit } = policy.ewma;
  const { slack, decision } = policy.cusum;
  const ewma = judged.reduce((average, { z }) => lambda * z + (1 - lambda) * average, 0);
  const cusumHigh = judged.reduce((sum, { z }) => Math.max(0, sum + z - slack), 0);
  const cusumLow = judged.reduce((sum, { z }) => Math.max(0, sum - z - slack), 0);
  const last = (count: number) => (judged.length < count ? null : judged.slice(-count));
  const oneSide = (count: number, beyond: number) => {
    const z = last(count)?.map((each) => each.z) ?? [Number.NaN];
    return z.every((each) => each > beyond) || z.every((each) => each < -beyond);
  };
  const steps = last(7)?.flatMap(({ value }, index, all) =>
    index === 0 ? [] : [value - (all[index - 1]?.value ?? 0)],
  ) ?? [0];
  const [before, now] = last(2)?.map(({ z }) => z) ?? [0, 0];
  const spread = (high: number | undefined, low: number | undefined) =>
    (high ?? 0) > two && (low ?? 0) < -two;
  const fires: Record<RuleId, boolean> = {
    '1-2s': oneSide(1, two),
    '1-3s': oneSide(1, three),
    '2-2s': oneSide(2, two),
    'R-4s': spread(before, now) || spread(now, before),
    '4-1s': oneSide(4, 1),
    '10x': oneSide(10, 0),
    '7T': steps.every((step) => step > 0) || steps.every((step) => step < 0),
    EWMA: Math.abs(ewma) > limit * Math.sqrt(lambda / (2 - lambda)),
    CUSUM: cusumHigh > decision || cusumLow > decision,
  };
  const spans: Record<RuleId, number> = {
    '1-2s': 1,
    '1-3s': 1,
    '2-2s': 2,
    'R-4s': 2,
    '4-1s': 4,
    '10x': 10,
    '7T': 7,
    EWMA: 1,
    CUSUM: 1,
  };
  const signals = ruleIds.flatMap((rule) => {
    const severity = policy.severity[rule] ?? defaultSeverity[rule];
    if (!fires[rule] || severity === 'off') return [];
    return [{ rule, severity, ids: judged.slice(-spans[rule]).map(({ id }) => id) }];
  });
  return { z: judged.at(-1)?.z ?? null, ewma, cusumHigh, cusumLow, signals };
}
