import { describe, expect, it } from 'vitest';
import {
  assessRuns,
  type ControlPolicy,
  defaultControlPolicy,
  type PolicyStep,
  policyAt,
  type SeriesPoint,
} from '../../src/core/index.ts';
import {
  inSd,
  last,
  onlyRules,
  steadyBaseline,
  unitBaseline,
  unitSd,
  week,
  weekly,
} from './seriesFixtures.ts';
import { runsOfSeries } from './seriesRuns.ts';

const noRules = onlyRules([]);
const rolling: ControlPolicy = { ...noRules, limits: 'rolling' };

function evaluated(
  points: readonly SeriesPoint[],
  steps: readonly PolicyStep[],
  closedAt: readonly number[] = [],
) {
  const closures = closedAt.map((at) => ({
    analyzerId: 'north',
    method: 'syringe' as const,
    route: 'patient-test' as const,
    quantity: 'va' as const,
    at,
  }));
  const assessments = assessRuns(runsOfSeries(points), { closures, policyStepsFor: () => steps });
  return [...assessments.values()].map(({ va }) => va);
}

describe('policyAt', () => {
  const quick = { ...defaultControlPolicy, minimumSize: 4 };
  const steps = Object.freeze([
    { from: 300, policy: rolling },
    { from: 100, policy: quick },
  ]);

  it('is the newest that has begun, the first moment included, in whatever order they stand', () => {
    expect([99, 100, 299, 300, 1e12].map((at) => policyAt(steps, at))).toEqual([
      defaultControlPolicy,
      quick,
      quick,
      rolling,
      rolling,
    ]);
  });

  it('is the later in the list of two from the same moment, and the default without any', () => {
    expect(policyAt([...steps, { from: 300, policy: noRules }], 300)).toBe(noRules);
    expect(policyAt([], 0)).toBe(defaultControlPolicy);
  });

  it('refuses a moment that is none', () => {
    expect(() => policyAt(steps, Number.NaN)).toThrow(/policyAt: at is NaN ms/);
    expect(() => policyAt([], Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});

describe('a change of policy', () => {
  const beyond2 = weekly([...unitBaseline, inSd(2.5), inSd(2.5), inSd(2.5)]);

  it('judges the run made at its very moment, and none before', () => {
    const step = (from: number) => [{ from, policy: onlyRules(['1-2s'], 'action') }];
    const severities = (from: number) =>
      evaluated(beyond2.slice(0, 21), step(from))
        .at(-1)
        ?.signals.map(({ severity }) => severity);
    expect(severities(20 * week)).toEqual(['action']);
    expect(severities(20 * week + 1)).toEqual(['warning']);
  });

  it('from before all runs is the policy of all of them', () => {
    const points = weekly([...unitBaseline.slice(0, 4), 0.5]);
    const quick = { ...noRules, minimumSize: 4 };
    for (const from of [-week, 0]) {
      expect(evaluated(points, [{ from, policy: quick }]).map(({ z }) => z !== null)).toEqual([
        false,
        false,
        false,
        false,
        true,
      ]);
    }
  });

  it('shows a signal with the severity of its own day, and none of a rule that was off', () => {
    const steps = [
      { from: 21 * week, policy: onlyRules(['1-2s'], 'action') },
      { from: 22 * week, policy: noRules },
    ];
    const signals = evaluated(beyond2, steps).slice(20);
    expect(signals.map((each) => each.signals.map(({ rule, severity }) => [rule, severity]))).toEqual([
      [['1-2s', 'warning']],
      [['1-2s', 'action']],
      [],
    ]);
  });

  it('ends every pattern, EWMA and CUSUM, and keeps the baseline', () => {
    const other = { ...defaultControlPolicy, cusum: { slack: 0.5, decision: 5 } };
    const evaluation = evaluated(beyond2.slice(0, 22), [{ from: 21 * week, policy: other }]).at(-1);
    // Without the change 2-2s would fire; λ·z and z − k of the one run since.
    expect(evaluation?.signals.map(({ rule }) => rule)).toEqual(['1-2s']);
    expect(evaluation?.n).toBe(20);
    expect(evaluation?.z).toBeCloseTo(2.5, 12);
    expect(evaluation?.ewma).toBeCloseTo(0.2 * 2.5, 12);
    expect(evaluation?.cusumHigh).toBeCloseTo(2, 12);
  });

  it('to what is in force already changes nothing, a default severity named or not', () => {
    const same = [{ from: 21 * week, policy: { ...defaultControlPolicy, severity: {} } }];
    expect(evaluated(beyond2, same)).toEqual(evaluated(beyond2, []));
    expect(evaluated(beyond2, same)[21]?.signals.map(({ rule }) => rule)).toContain('2-2s');
  });

  it('that came and went between two runs changes nothing', () => {
    const steps = [
      { from: 20 * week + 1, policy: rolling },
      { from: 20 * week + 2, policy: defaultControlPolicy },
    ];
    expect(evaluated(beyond2, steps)).toEqual(evaluated(beyond2, []));
    // Nor does an excluded run in between, which takes part in nothing.
    const excluded = { id: 'x', at: 20 * week + 1, value: 9, epoch: 0, excluded: true };
    const withIt = evaluated([...beyond2.slice(0, 21), excluded, ...beyond2.slice(21)], steps);
    expect(withIt.filter(({ id }) => id !== 'x')).toEqual(evaluated(beyond2, []));
  });

  it('leaves a failure open, whatever opened it, until it is closed', () => {
    const points = weekly([...unitBaseline, inSd(3.5), 0, 0.1, 0]);
    const steps = [{ from: 21 * week, policy: noRules }];
    const open = (closures: readonly number[]) =>
      evaluated(points, steps, closures)
        .slice(20)
        .map(({ failureOpen, accepted }) => [failureOpen, accepted]);
    expect(open([])).toEqual(Array<boolean[]>(4).fill([true, false]));
    expect(open([21.5 * week])).toEqual([
      [true, false],
      [true, false],
      [false, true],
      [false, true],
    ]);
  });

  it('does not stop a failure under the rules that were switched on', () => {
    const points = weekly([...unitBaseline, inSd(3.5), inSd(3.5)]);
    const steps = [
      { from: 0, policy: noRules },
      { from: 21 * week, policy: defaultControlPolicy },
    ];
    expect(
      evaluated(points, steps)
        .slice(20)
        .map(({ failureOpen }) => failureOpen),
    ).toEqual([false, true]);
  });

  it('from a baseline to rolling limits and back has those of the epoch ready', () => {
    // A baseline about 0, then twenty runs about 10: rolling limits have seen them, the baseline never moves.
    const points = weekly([...unitBaseline, ...steadyBaseline(10, 2), 10, 10]);
    const steps = [
      { from: -1, policy: noRules },
      { from: 40 * week, policy: rolling },
      { from: 41 * week, policy: noRules },
    ];
    const [before, during, after] = evaluated(points, steps).slice(39);
    expect(before?.mean).toBeCloseTo(64, 12);
    expect(before?.sd).toBeCloseTo(unitSd, 12);
    expect([during?.n, after?.n]).toEqual([20, 20]);
    expect(during?.mean).toBeCloseTo(74, 12);
    expect(during?.sd).toBeCloseTo(2, 12);
    expect(after?.mean).toBeCloseTo(64, 12);
    expect(after?.sd).toBeCloseTo(unitSd, 12);
  });

  it('to a longer baseline takes in the runs that the shorter one no longer did', () => {
    const points = weekly([...unitBaseline, ...steadyBaseline(10, 2), 10]);
    const longer = { ...noRules, baselineSize: 40 };
    const found = last(
      evaluated(points, [
        { from: -1, policy: noRules },
        { from: 40 * week, policy: longer },
      ]),
    );
    expect(found.n).toBe(40);
    expect(found.mean).toBeCloseTo(69, 12);
  });

  it('keeps the prediction factors of the n in force', () => {
    // 3.532 SD at n = 20 (domain notes: scipy and R agree): z = 3.2 lies within, and would not within 3.
    const careful = { ...onlyRules(['1-3s']), smallSample: true };
    const points = weekly([...unitBaseline, 0, inSd(3.2), inSd(3.6)]);
    const steps = [
      { from: -1, policy: careful },
      { from: 21 * week, policy: { ...onlyRules(['1-3s', '10x']), smallSample: true } },
    ];
    expect(
      evaluated(points, steps)
        .slice(20)
        .map(({ signals }) => signals.length),
    ).toEqual([0, 0, 1]);
  });

  it('begins with nothing after a new epoch, whichever policy comes next', () => {
    const points = [...weekly(unitBaseline), { id: 'new', at: 20 * week, value: 0, epoch: 1 }];
    const found = last(evaluated(points, [{ from: 20 * week, policy: rolling }]));
    expect([found.n, found.z]).toEqual([0, null]);
    const waiting = [...points, { id: 'next', at: 21 * week, value: 0, epoch: 1 }];
    expect(last(evaluated(waiting, [{ from: 21 * week, policy: rolling }])).n).toBe(1);
  });

  it('is refused when it cannot be', () => {
    const steps = (change: Partial<PolicyStep>) => () =>
      evaluated(weekly([0]), [{ from: 0, policy: rolling, ...change }]);
    expect(steps({ from: Number.NaN })).toThrow(/assessRuns: policy step 0 is from NaN ms/);
    expect(steps({ policy: { ...rolling, baselineSize: 1 } })).toThrow(
      /assessRuns: policy.baselineSize is 1/,
    );
    expect(steps({})).not.toThrow();
  });
});
