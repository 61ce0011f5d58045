import { describe, expect, it } from 'vitest';
import {
  assessSimulatorSessions,
  defaultControlPolicy,
  type PolicyStep,
  publishedCheckLimits,
  type SimulatorSession,
  simulatorTarget,
} from '../../src/core/index.ts';
import { found, sessions } from './controlFixtures.ts';
import { week } from './seriesFixtures.ts';

/** Ten sessions whose deviations are ±0.5 in turn, in both levels: mean 0, SD 0.5 · √(10/9), by hand. */
const tenSessions: readonly (readonly [number, number])[] = Array.from({ length: 10 }, (_, index) =>
  index % 2 === 0 ? [0.5, -0.5] : [-0.5, 0.5],
);
const sd = 0.5 * Math.sqrt(10 / 9);
const following = (low: number, high: number, steps: readonly PolicyStep[] = []) =>
  assessSimulatorSessions(sessions([...tenSessions, [low, high], [0, 0]]), { policyStepsFor: () => steps });
const severity = (word: 'action' | 'warning' | 'off'): PolicyStep[] => [
  {
    from: 0,
    policy: { ...defaultControlPolicy, severity: { ...defaultControlPolicy.severity, 'R-4s': word } },
  },
];

describe('simulatorTarget', () => {
  it('is the uptake of the gases by the single-breath equation', () => {
    // ERS/ATS 2017 single-breath equation by hand: 5 L BTPS at 760 mmHg are 4.13119 L STPD (713/760 · 273.15/310.15);
    // 4131.19 · 60/10/713 · ln(0.0024/0.003 · 0.003/0.0012) = 34.7646 · ln 2 = 24.0970.
    const target = simulatorTarget({
      vaBtpsL: 5,
      breathHoldS: 10,
      barometricMmHg: 760,
      inspired: { co: 0.003, tracer: 0.003 },
      alveolar: { co: 0.0012, tracer: 0.0024 },
    });
    expect(target).toBeCloseTo(24.097, 3);
  });

  it('refuses gases that take nothing up', () => {
    const gas = { co: 0.003, tracer: 0.003 };
    const breath = { vaBtpsL: 5, breathHoldS: 10, barometricMmHg: 760, inspired: gas, alveolar: gas };
    expect(() => simulatorTarget(breath)).toThrow(/the uptake is 0 mL\/min\/mmHg/);
  });
});

describe('assessSimulatorSessions: published limit', () => {
  it('is 2.0 mL/min/mmHg from the target, both ends in', () => {
    // Gallo, Crapo & Jensen, J Investig Med 2007;55(Suppl 1):S153, as the project's domain notes have it.
    expect(publishedCheckLimits.simulator.dlcoMlMinMmHg).toBe(2);
    const all = assessSimulatorSessions(sessions([[2, -2]]));
    expect(found(all, 's1')).toMatchObject({
      levels: [{ withinPublished: true }, { withinPublished: true }],
      verdict: { word: 'pass', establishing: true, findings: [] },
    });
    const out = found(assessSimulatorSessions(sessions([[0, 2.1]])), 's1');
    expect(out.verdict).toEqual({
      word: 'fail',
      establishing: true,
      findings: [
        {
          kind: 'published-limit',
          series: 'high',
          value: 26.1,
          target: 24,
          limit: 2,
          beyond: ['absolute'],
        },
      ],
    });
    expect(out.levels[1]?.deviationMlMinMmHg).toBeCloseTo(2.1, 12);
    // Only the level that is out has a failure.
    expect(out.levels.map(({ evaluation }) => evaluation.failureOpen)).toEqual([false, true]);
  });

  it('judges the distance from the day’s target, so that a new certificate moves nothing', () => {
    const moved = sessions([...tenSessions, [0.2, 0.2]]).map((session, index) =>
      index < 5 ? session : withTargets(session, 3),
    );
    const evaluated = found(assessSimulatorSessions(moved), 's11');
    const [, high] = evaluated.levels;
    expect(high?.targetMlMinMmHg).toBe(27);
    expect(high?.evaluation.mean).toBeCloseTo(0, 12);
    expect(high?.evaluation.z).toBeCloseTo(0.2 / sd, 10);
  });

  it('takes a reading in the other unit for what it is', () => {
    const session = sessions([[1, 1]]).map((one) => ({
      ...one,
      levels: one.levels.map((level) => ({
        ...level,
        // 1 mmol/min/kPa is 2.987 mL/min/mmHg: ERS/ATS 2017, recalled.
        reading: { dlco: level.reading.dlco / 2.987, dlcoUnit: 'mmol/min/kPa' as const },
      })),
    }));
    expect(found(assessSimulatorSessions(session), 's1').levels[0]?.deviationMlMinMmHg).toBeCloseTo(1, 10);
  });
});

const withTargets = (session: SimulatorSession, more: number): SimulatorSession => ({
  ...session,
  levels: session.levels.map(({ targetMlMinMmHg, reading, level }) => ({
    level,
    targetMlMinMmHg: targetMlMinMmHg + more,
    reading: { ...reading, dlco: reading.dlco + more },
  })),
});

describe('assessSimulatorSessions: R-4s within a session', () => {
  it('fires in both levels when one lies beyond +2 SD and the other beyond −2 SD, and fails the session', () => {
    const all = following(2.1 * sd, -2.1 * sd);
    const split = found(all, 's11');
    expect(split.acrossLevels).toBe(true);
    expect(split.verdict.word).toBe('fail');
    expect(split.verdict.findings.filter((finding) => finding.kind === 'signal')).toEqual([
      { kind: 'signal', series: 'low', rule: '1-2s', severity: 'warning', ids: ['s11'], across: 'tests' },
      { kind: 'signal', series: 'low', rule: 'R-4s', severity: 'action', ids: ['s11'], across: 'levels' },
      { kind: 'signal', series: 'high', rule: '1-2s', severity: 'warning', ids: ['s11'], across: 'tests' },
      { kind: 'signal', series: 'high', rule: 'R-4s', severity: 'action', ids: ['s11'], across: 'levels' },
    ]);
    expect(split.levels.map(({ evaluation }) => evaluation.accepted)).toEqual([false, false]);
    // The failure stays open in both.
    expect(found(all, 's12').levels.map(({ evaluation }) => evaluation.failureOpen)).toEqual([true, true]);
  });

  it.each([
    ['one stays within 2 SD', 2.1 * sd, -1.9 * sd],
    ['both lie on one side', 2.1 * sd, 2.1 * sd],
  ])('does not fire when %s', (_, low, high) => {
    expect(found(following(low, high), 's11')).toMatchObject({
      acrossLevels: false,
      verdict: { word: 'warn' },
    });
  });

  it('only warns, and lets both into their means, where the policy makes it a warning', () => {
    const split = found(following(2.1 * sd, -2.1 * sd, severity('warning')), 's11');
    expect(split).toMatchObject({ acrossLevels: true, verdict: { word: 'warn' } });
    expect(split.levels.map(({ evaluation }) => evaluation.accepted)).toEqual([true, true]);
  });

  it('says nothing where the policy switches it off', () => {
    const split = found(following(2.1 * sd, -2.1 * sd, severity('off')), 's11');
    expect(split.acrossLevels).toBe(false);
    expect(
      split.verdict.findings.every((finding) => finding.kind === 'signal' && finding.rule === '1-2s'),
    ).toBe(true);
  });

  it('widens 2 SD by the prediction factor where the policy does', () => {
    const steps = [{ from: 0, policy: { ...defaultControlPolicy, smallSample: true } }];
    // R 4.2.2: -qt(pnorm(-2), 9) * sqrt(1 + 1/10) is 2.4330.
    expect(found(following(2.4 * sd, -2.4 * sd, steps), 's11').acrossLevels).toBe(false);
    expect(found(following(2.44 * sd, -2.44 * sd, steps), 's11').acrossLevels).toBe(true);
  });

  it('cannot fire before both levels have own limits, nor in a session that is set aside', () => {
    expect(found(assessSimulatorSessions(sessions([[1.9, -1.9]])), 's1').acrossLevels).toBe(false);
    const aside = sessions([...tenSessions, [1.9, -1.9], [0, 0]]).map((session) =>
      session.id === 's11' ? { ...session, excluded: true } : session,
    );
    const all = assessSimulatorSessions(aside);
    expect(found(all, 's11').acrossLevels).toBe(false);
    expect(found(all, 's12').levels.map(({ evaluation }) => evaluation.failureOpen)).toEqual([false, false]);
  });

  it('ends with a closure of each level', () => {
    const list = sessions([...tenSessions, [2.1 * sd, -2.1 * sd], [0, 0]]);
    const closures = [
      {
        analyzerId: 'analyzer-1',
        series: { kind: 'simulator' as const, level: 'low' as const },
        at: 131 * week,
      },
    ];
    const all = assessSimulatorSessions(list, { closures });
    expect(found(all, 's12').levels.map(({ evaluation }) => evaluation.failureOpen)).toEqual([false, true]);
  });
});

describe('assessSimulatorSessions: what cannot be', () => {
  it('gives nothing of nothing, and judges a session of one level by itself', () => {
    expect(assessSimulatorSessions([]).size).toBe(0);
    const [both] = sessions([[0, 2.5]]);
    if (both === undefined) throw new Error('a session');
    const single = { ...both, levels: both.levels.slice(1) };
    expect(found(assessSimulatorSessions([single]), 's1')).toMatchObject({
      levels: [{ level: 'high', withinPublished: false }],
      acrossLevels: false,
    });
  });

  it.each([
    ['no level', (): SimulatorSession['levels'] => [], /no level/],
    ['a level twice', (levels: SimulatorSession['levels']) => [...levels, ...levels], /a level comes twice/],
    [
      'a target of 0',
      (levels: SimulatorSession['levels']) => levels.map((level) => ({ ...level, targetMlMinMmHg: 0 })),
      /target of level low is 0/,
    ],
  ])('refuses %s, or leaves it out where somebody asks for that', (_, change, message) => {
    const list = sessions([
      [0, 0],
      [0, 0],
    ]).map((session) => (session.id === 's1' ? { ...session, levels: change(session.levels) } : session));
    expect(() => assessSimulatorSessions(list)).toThrow(message);
    const left: string[] = [];
    const all = assessSimulatorSessions(list, { onImpossible: (id) => left.push(id) });
    expect(left).toEqual(['s1']);
    expect([...all.keys()]).toEqual(['s2']);
  });

  it('refuses an order that is none', () => {
    const [first, second] = sessions([
      [0, 0],
      [0, 0],
    ]);
    if (first === undefined || second === undefined) throw new Error('two sessions');
    expect(() => assessSimulatorSessions([second, first])).toThrow(/control s1/);
  });
});
