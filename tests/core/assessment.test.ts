import { describe, expect, it } from 'vitest';
import {
  assessRuns,
  defaultControlPolicy,
  type RunReading,
  type SimulationRun,
} from '../../src/core/index.ts';
import { goodRun, steadyRuns } from './runFixtures.ts';
import { week } from './seriesFixtures.ts';

const inTime = (runs: readonly SimulationRun[]): SimulationRun[] => [...runs].sort((a, b) => a.at - b.at);
const after20 = (change: Partial<RunReading>, id = 'last'): SimulationRun => ({
  ...goodRun,
  id,
  at: 20 * week,
  reading: { ...goodRun.reading, ...change },
});
const verdictAfter20 = (change: Partial<RunReading>) =>
  assessRuns([...steadyRuns(20), after20(change)]).get('last')?.verdict;

describe('assessRuns', () => {
  it('of no runs is nothing', () => {
    expect(assessRuns([]).size).toBe(0);
  });

  it('passes a good run, and says that own limits are still being established', () => {
    const assessments = assessRuns(steadyRuns(11));
    expect(assessments.get('north patient-test 1')?.verdict).toEqual({
      word: 'pass',
      establishing: true,
      findings: [],
    });
    expect(assessments.get('north patient-test 11')?.verdict).toEqual({
      word: 'pass',
      establishing: false,
      findings: [],
    });
  });

  it('fails a run outside a published limit, in the series of that quantity only', () => {
    const assessment = assessRuns([after20({ dlco: -0.6 })]).get('last');
    expect(assessment?.verdict.word).toBe('fail');
    expect(assessment?.verdict.findings).toEqual([
      { kind: 'published-limit', quantity: 'dlco', value: -0.6, target: 0, limit: 0.5, unit: 'mL/min/mmHg' },
    ]);
    expect([assessment?.va.failureOpen, assessment?.dlco.failureOpen]).toEqual([false, true]);
  });

  it('tells by how much VA lies outside', () => {
    const finding = verdictAfter20({ vaL: 3.9 })?.findings[0];
    // 3.9 · 0.8928 − 0.110 = 3.372: 0.372 L above 3.
    expect(finding).toMatchObject({
      kind: 'published-limit',
      quantity: 'va',
      target: 3,
      limit: 0.3,
      unit: 'L',
    });
    expect(finding?.kind === 'published-limit' && finding.value).toBeCloseTo(0.372, 3);
  });

  it('fails at an action signal of own limits although the published limit is met', () => {
    const verdict = verdictAfter20({ vaL: 3.58 });
    expect(verdict?.word).toBe('fail');
    expect(verdict?.findings[0]).toMatchObject({
      kind: 'signal',
      quantity: 'va',
      rule: '1-2s',
      severity: 'warning',
    });
    expect(verdict?.findings[1]).toEqual({
      kind: 'signal',
      quantity: 'va',
      rule: '1-3s',
      severity: 'action',
      ids: ['last'],
    });
  });

  it('warns at a warning signal', () => {
    const verdict = verdictAfter20({ vaL: 3.52 });
    expect(verdict?.word).toBe('warn');
    expect(verdict?.findings).toMatchObject([{ kind: 'signal', quantity: 'va', rule: '1-2s' }]);
  });

  it('warns at a volume check or a breath-hold outside tolerance, ends included', () => {
    expect(verdictAfter20({ breathHoldS: 12 })?.word).toBe('pass');
    expect(verdictAfter20({ breathHoldS: 12.1 })).toMatchObject({
      word: 'warn',
      findings: [{ kind: 'breath-hold', breathHoldS: 12.1, targetS: 10, toleranceS: 2 }],
    });
    // Expected 3 · 1.1201 = 3.360 L; 3.45 is +2.7 %, 3.47 is +3.3 %.
    expect(verdictAfter20({ volumeCheckL: 3.45 })?.word).toBe('pass');
    const warned = verdictAfter20({ volumeCheckL: 3.47 });
    expect(warned).toMatchObject({ word: 'warn', findings: [{ kind: 'volume-check', limit: 0.03 }] });
  });

  it('never mixes analyzers, methods or routes in one series', () => {
    const runs = inTime([
      ...steadyRuns(12),
      ...steadyRuns(12, { route: 'built-in' }),
      ...steadyRuns(12, { analyzerId: 'south' }),
    ]);
    const precision = steadyRuns(12).map((run) => ({
      ...run,
      id: `gas ${run.id}`,
      method: 'precision-gas' as const,
    }));
    const together = assessRuns(inTime([...runs, ...precision]));
    const alone = assessRuns(steadyRuns(12));
    for (const [id, assessment] of alone) expect(together.get(id)).toEqual(assessment);
    expect(together.get('south patient-test 12')?.va.n).toBe(11);
    expect(together.get('gas north patient-test 12')?.va.n).toBe(11);
  });

  it('ends a failure by the closure of its own series and quantity only', () => {
    const runs = [after20({ vaL: 3.9, dlco: 0.6 }), { ...after20({}, 'next'), at: 21 * week }];
    const series = { analyzerId: 'north', method: 'syringe', route: 'patient-test', at: 20 * week } as const;
    const openAt = (closures: Parameters<typeof assessRuns>[1]) => {
      const next = assessRuns(runs, closures).get('next');
      return [next?.va.failureOpen, next?.dlco.failureOpen];
    };
    expect(openAt({})).toEqual([true, true]);
    expect(openAt({ closures: [{ ...series, quantity: 'va' }] })).toEqual([false, true]);
    expect(openAt({ closures: [{ ...series, quantity: 'dlco' }] })).toEqual([true, false]);
    expect(openAt({ closures: [{ ...series, quantity: 'va', route: 'built-in' }] })).toEqual([true, true]);
    expect(openAt({ closures: [{ ...series, quantity: 'va', analyzerId: 'south' }] })).toEqual([true, true]);
  });

  it('judges each analyzer by its own policy', () => {
    const runs = inTime([...steadyRuns(6), ...steadyRuns(6, { analyzerId: 'south' })]);
    const quick = { ...defaultControlPolicy, minimumSize: 4, baselineSize: 5 };
    const assessments = assessRuns(runs, {
      policyStepsFor: (id) => (id === 'south' ? [{ from: 0, policy: quick }] : []),
    });
    expect(assessments.get('north patient-test 6')?.va.z).toBeNull();
    expect(assessments.get('south patient-test 6')?.va.z).not.toBeNull();
  });

  it('gives a voided run its numbers, and lets it take part in nothing', () => {
    const runs = [
      ...steadyRuns(20),
      { ...after20({ vaL: 3.9 }), excluded: true },
      { ...after20({}, 'next'), at: 21 * week },
    ];
    const assessments = assessRuns(runs);
    expect(assessments.get('last')?.numbers.simulatedVaL).toBeCloseTo(3.372, 3);
    expect(assessments.get('last')?.va).toMatchObject({ z: null, accepted: false });
    expect(assessments.get('next')?.va).toMatchObject({ failureOpen: false, accepted: true });
  });

  it('has an outline of every run that agrees with its assessment', () => {
    const runs = [...steadyRuns(20), after20({ vaL: 3.9 }), { ...after20({}, 'next'), at: 21 * week }];
    const assessments = assessRuns(runs);
    expect(assessments.outline('last')).toEqual({ failureOpen: true, accepted: false });
    expect(assessments.outline('nobody')).toBeUndefined();
    for (const [id, { va, dlco }] of assessments) {
      expect(assessments.outline(id)).toEqual({
        failureOpen: va.failureOpen || dlco.failureOpen,
        accepted: va.accepted && dlco.accepted,
      });
    }
  });

  it('reads as a map: each assessment is one object, made once', () => {
    const runs = steadyRuns(12);
    const assessments = assessRuns(runs);
    expect(assessments.size).toBe(12);
    expect([...assessments.keys()]).toEqual(runs.map(({ id }) => id));
    expect([...assessments.values()].map(({ id }) => id)).toEqual(runs.map(({ id }) => id));
    expect(assessments.has('nobody')).toBe(false);
    expect(assessments.get('nobody')).toBeUndefined();
    const seen: unknown[] = [];
    assessments.forEach((assessment, id, all) => {
      seen.push(assessment === all.get(id));
    });
    expect(seen).toEqual(Array<boolean>(12).fill(true));
  });

  it('refuses runs out of time order, an id that comes twice and numbers that cannot be', () => {
    const [first, second] = steadyRuns(2);
    if (first === undefined || second === undefined) throw new Error('no runs');
    expect(() => assessRuns([second, first])).toThrow(RangeError);
    expect(() => assessRuns([second, first])).toThrow(/at of run north patient-test 1 is 0 ms/);
    expect(() => assessRuns([{ ...first, at: Number.NaN }])).toThrow(/is NaN ms/);
    expect(() => assessRuns([{ ...first, at: Number.NEGATIVE_INFINITY }])).toThrow(/is -Infinity ms/);
    expect(() => assessRuns([{ ...first, epoch: Number.NaN }])).toThrow(/epoch is NaN/);
    expect(() => assessRuns([first, { ...second, id: first.id }]).get(first.id)).toThrow(/comes twice/);
    expect(() => assessRuns([after20({ vaL: Number.NaN })])).toThrow(/run last.*reportedVaL is NaN L/);
  });
});

describe('one more run', () => {
  const steady = steadyRuns(20);

  it('is judged as it would be among all, and taken in by none', () => {
    const runs = Object.freeze([...steady, after20({ vaL: 3.55 })]);
    const assessments = assessRuns(runs);
    const before = new Map(assessments);
    // The second beyond 2 SD on one side: 2-2s names the run before it.
    const next = { ...after20({ vaL: 3.55 }, 'next'), at: 21 * week };
    const found = assessments.oneMore(next);
    expect(found).toEqual(assessRuns([...runs, next]).get('next'));
    expect(found.va.signals).toContainEqual({ rule: '2-2s', severity: 'action', ids: ['last', 'next'] });
    expect(assessments.oneMore({ ...next, reading: goodRun.reading }).verdict.word).toBe('pass');
    expect(assessments.oneMore(next)).toEqual(found);
    expect(new Map(assessments)).toEqual(before);
    expect(assessments.has('next')).toBe(false);
  });

  it('may be the first of its series', () => {
    const first = after20({ vaL: 3.9 });
    expect(assessRuns([]).oneMore(first)).toEqual(assessRuns([first]).get('last'));
    const other = { ...first, route: 'built-in' as const, at: 0 };
    expect(assessRuns(steady).oneMore(other)).toEqual(assessRuns([other]).get('last'));
  });

  it('may be of the same moment as the newest of its series, and earlier than runs of others', () => {
    const others = steadyRuns(30, { analyzerId: 'south' });
    const next = { ...after20({ vaL: 3.5 }, 'next'), at: 19 * week };
    const expected = assessRuns(inTime([...steady, next])).get('next');
    expect(assessRuns(inTime([...steady, ...others])).oneMore(next)).toEqual(expected);
  });

  it('knows the closures, also one later than every run', () => {
    const closure = {
      analyzerId: 'north',
      method: 'syringe',
      route: 'patient-test',
      at: 20.5 * week,
    } as const;
    const closures = [{ ...closure, quantity: 'va' } as const];
    const assessments = assessRuns([...steady, after20({ vaL: 3.9 })], { closures });
    const next = { ...goodRun, id: 'next' };
    expect(assessments.oneMore({ ...next, at: 20.5 * week }).va.failureOpen).toBe(true);
    expect(assessments.oneMore({ ...next, at: 21 * week }).va.failureOpen).toBe(false);
  });

  it('stands behind runs that were set aside for impossible numbers', () => {
    const impossible = { ...after20({ vaL: -1 }, 'bad'), at: 30 * week };
    const assessments = assessRuns([...steady, impossible], { onImpossible: () => undefined });
    expect(assessments.oneMore(after20({}))).toEqual(assessRuns([...steady, after20({})]).get('last'));
  });

  it('is refused when it is earlier than its series, assessed already, or impossible', () => {
    const assessments = assessRuns(steady);
    const next = after20({});
    const refused = (change: Partial<SimulationRun>) => () => assessments.oneMore({ ...next, ...change });
    expect(refused({ at: 19 * week - 1 })).toThrow(RangeError);
    expect(refused({ at: 19 * week - 1 })).toThrow(/at of run last is .* ms, not at or after the newest/);
    expect(refused({ at: Number.NaN })).toThrow(/at of run last is NaN ms/);
    expect(refused({ at: Number.POSITIVE_INFINITY })).toThrow(/at of run last is Infinity ms/);
    expect(refused({ analyzerId: 'new', at: Number.NEGATIVE_INFINITY })).toThrow(/is -Infinity ms/);
    expect(refused({ epoch: Number.NaN })).toThrow(/oneMore: run last: .*epoch is NaN/);
    expect(refused({ id: steady[3]?.id ?? '' })).toThrow(/is assessed already/);
    expect(refused({ reading: { ...goodRun.reading, vaL: Number.NaN } })).toThrow(
      /oneMore: run last: .*reportedVaL is NaN L/,
    );
    expect(assessments.oneMore(next).verdict.word).toBe('pass');
  });
});
