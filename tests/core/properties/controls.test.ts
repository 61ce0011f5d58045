import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  assessBiologicalTests,
  assessSimulatorSessions,
  type BiologicalTest,
  type ControlClosure,
  type ControlPolicy,
  defaultControlPolicy,
  type PointEvaluation,
  policyAt,
  predictionFactor,
  type SeriesPoint,
  type SimulatorSession,
} from '../../../src/core/index.ts';
import { found } from '../controlFixtures.ts';
import { arbitraryPolicy, arbitrarySteps } from './arbitraries.ts';
import { referenceEvaluation } from './referenceEvaluation.ts';

const place = fc.record({
  wait: fc.constantFrom(0, 1, 1, 1, 2),
  isExcluded: fc.integer({ min: 0, max: 9 }).map((roll) => roll === 0),
  startsEpoch: fc.integer({ min: 0, max: 29 }).map((roll) => roll === 0),
});
/** Eighths: zeros and ties come up, and a value and its distance from a whole target are exact. */
const eighths = (most: number, usual = 8) =>
  fc.oneof(
    { weight: 12, arbitrary: fc.integer({ min: -usual, max: usual }) },
    { weight: 1, arbitrary: fc.integer({ min: -most, max: most }) },
  );

/** The steps of a history with their moments and epochs. */
function inTime<T extends { wait: number; startsEpoch: boolean }>(steps: readonly T[]) {
  let at = 0;
  let epoch = 0;
  return steps.map((step) => {
    at += step.wait;
    if (step.startsEpoch) epoch += 1;
    return { ...step, at, epoch };
  });
}

const arbitraryTests: fc.Arbitrary<BiologicalTest[]> = fc
  .array(fc.tuple(place, eighths(48), eighths(8), fc.nat(5)), { maxLength: 50 })
  .map((drawn) =>
    inTime(drawn.map(([step, dlco, va, who]) => ({ ...step, dlco, va, who }))).map(
      ({ at, epoch, isExcluded, dlco, va, who }, index) => ({
        id: `t${index}`,
        at,
        analyzerId: 'analyzer',
        subjectId: who === 0 ? 'other' : 'subject',
        epoch,
        reading: { dlco: 24 + dlco / 8, dlcoUnit: 'mL/min/mmHg', vaL: 6 + va / 8 },
        limits: { fraction: 0.125, dlcoMlMinMmHg: 2.5 },
        excluded: isExcluded,
      }),
    ),
  );

const closed = fc.record({ at: fc.nat(60), isDlco: fc.boolean() });
const arbitraryClosures: fc.Arbitrary<ControlClosure[]> = fc.array(closed, { maxLength: 5 }).map((list) =>
  list.map(({ at, isDlco }) => ({
    analyzerId: 'analyzer',
    series: { kind: 'biological', subjectId: 'subject', quantity: isDlco ? 'dlco' : 'va' },
    at,
  })),
);

/** What the rule says, word by word: own limits of six to twenty tests, widened. */
const asOfPersons = (policy: ControlPolicy): ControlPolicy => ({
  limits: 'baseline',
  baselineSize: 20,
  minimumSize: 6,
  smallSample: true,
  severity: policy.severity,
  ewma: policy.ewma,
  cusum: policy.cusum,
});

/** The definitions word by word, with no thought of speed: all earlier tests are looked up anew for every test. */
function referenceBiological(
  tests: readonly BiologicalTest[],
  policyOfDay: (at: number) => ControlPolicy,
  closures: readonly ControlClosure[],
) {
  const meanBefore = (index: number) => {
    const test = tests[index];
    const six = tests
      .slice(0, index)
      .filter(({ epoch, excluded }) => epoch === test?.epoch && !excluded)
      .slice(0, 6)
      .map(({ reading }) => reading.dlco);
    return six.length < 6 ? null : six.reduce((sum, value) => sum + value, 0) / 6;
  };
  const within = tests.map(({ reading, limits }, index) => {
    const target = meanBefore(index);
    if (target === null) return null;
    const off = Math.abs(reading.dlco - target);
    return off <= limits.fraction * target + 1e-9 && off <= limits.dlcoMlMinMmHg + 1e-9;
  });
  const series = (quantity: 'dlco' | 'va') =>
    referenceEvaluation(
      tests.map(
        ({ id, at, epoch, excluded, reading }, index): SeriesPoint => ({
          id,
          at,
          epoch,
          excluded,
          value: quantity === 'dlco' ? reading.dlco : reading.vaL,
          breached: quantity === 'dlco' && within[index] === false,
        }),
      ),
      policyOfDay,
      closures.flatMap(({ series: of, at }) =>
        of.kind === 'biological' && of.quantity === quantity ? [at] : [],
      ),
    );
  return { within, dlco: series('dlco'), va: series('va') };
}

describe('assessBiologicalTests', () => {
  it('gives what a plain evaluation from the definitions gives', () => {
    fc.assert(
      fc.property(arbitraryTests, arbitraryClosures, arbitrarySteps, (tests, closures, steps) => {
        const all = assessBiologicalTests(tests, { closures, policyStepsFor: () => steps });
        expect(all.size).toBe(tests.length);
        const mine = tests.filter(({ subjectId }) => subjectId === 'subject');
        const policyOfDay = (at: number) => asOfPersons(policyAt(steps, at));
        const expected = referenceBiological(mine, policyOfDay, closures);
        const assessed = mine.map(({ id }) => found(all, id));
        expect(assessed.map(({ withinPublished }) => withinPublished)).toEqual(expected.within);
        expect(assessed.map(({ dlco }) => roundedOff(dlco))).toEqual(expected.dlco.map(roundedOff));
        expect(assessed.map(({ va }) => roundedOff(va))).toEqual(expected.va.map(roundedOff));
      }),
      { numRuns: 300 },
    );
  });

  it('judges alike when every DLCO and its limit are doubled', () => {
    fc.assert(
      fc.property(arbitraryTests, (tests) => {
        const doubled = tests.map((test) => ({
          ...test,
          reading: { ...test.reading, dlco: 2 * test.reading.dlco },
          limits: { ...test.limits, dlcoMlMinMmHg: 2 * test.limits.dlcoMlMinMmHg },
        }));
        const words = (list: readonly BiologicalTest[]) =>
          [...assessBiologicalTests(list).values()].map(({ verdict, dlco }) => [verdict.word, dlco.z]);
        expect(words(doubled)).toEqual(words(tests));
      }),
      { numRuns: 200 },
    );
  });

  it('changes nothing else when an excluded test is added', () => {
    fc.assert(
      fc.property(arbitraryTests, fc.nat(50), (tests, where) => {
        const at = tests[where]?.at ?? tests.at(-1)?.at ?? 0;
        const [like] = tests;
        if (like === undefined) return;
        const reading = { ...like.reading, dlco: 1000 };
        const added = { ...like, id: 'added', at, epoch: 99, reading, excluded: true };
        const all = assessBiologicalTests([...tests.slice(0, where), added, ...tests.slice(where)]);
        const without = [...all].filter(([id]) => id !== 'added');
        expect(new Map(without)).toEqual(assessBiologicalTests(tests));
      }),
      { numRuns: 200 },
    );
  });
});

const arbitrarySessions: fc.Arbitrary<SimulatorSession[]> = fc
  .array(fc.tuple(place, eighths(24, 3), eighths(24, 3), fc.nat(19)), { maxLength: 40 })
  .map((drawn) =>
    inTime(drawn.map(([step, low, high, which]) => ({ ...step, low, high, which }))).map(
      ({ at, epoch, isExcluded, low, high, which }, index) => {
        const level = (name: 'low' | 'high', targetMlMinMmHg: number, deviation: number) => ({
          level: name,
          targetMlMinMmHg,
          reading: { dlco: targetMlMinMmHg + deviation / 8, dlcoUnit: 'mL/min/mmHg' as const },
        });
        // Now and then the levels are driven apart, or only one is measured.
        const apart = which === 2 ? 13 : which === 3 ? -13 : 0;
        const levels = [level('low', 12, low + apart), level('high', 24, high - apart)];
        return {
          id: `s${index}`,
          at,
          analyzerId: 'analyzer',
          epoch,
          levels: which === 0 ? levels.slice(0, 1) : which === 1 ? levels.slice(1) : levels,
          limits: { dlcoMlMinMmHg: 2 },
          excluded: isExcluded,
        };
      },
    ),
  );

const deviationOf = (session: SimulatorSession, name: 'low' | 'high') => {
  const level = session.levels.find((each) => each.level === name);
  return level === undefined ? null : level.reading.dlco - level.targetMlMinMmHg;
};

/** Session by session: what each level's z would be, then whether both are breached together, then all of it anew. */
function referenceSimulator(sessions: readonly SimulatorSession[], policy: ControlPolicy) {
  const breachedTogether = new Set<string>();
  const split = new Set<string>();
  const series = (name: 'low' | 'high', upTo: number) =>
    referenceEvaluation(
      sessions.slice(0, upTo).flatMap((session): SeriesPoint[] => {
        const value = deviationOf(session, name);
        if (value === null) return [];
        const { id, at, epoch, excluded } = session;
        return [
          { id, at, epoch, excluded, value, breached: Math.abs(value) > 2 || breachedTogether.has(id) },
        ];
      }),
      () => policy,
      [],
    );
  const severity = policy.severity['R-4s'] ?? 'action';
  sessions.forEach((session, index) => {
    const side = (name: 'low' | 'high') => {
      const last = series(name, index + 1).at(-1);
      if (deviationOf(session, name) === null || last === undefined || last.z === null) return 0;
      const two = policy.smallSample ? predictionFactor(last.n, 2) : 2;
      return last.z > two ? 1 : last.z < -two ? -1 : 0;
    };
    if (side('low') * side('high') !== -1 || severity === 'off') return;
    split.add(session.id);
    if (severity === 'action') breachedTogether.add(session.id);
  });
  return { split, low: series('low', sessions.length), high: series('high', sessions.length) };
}

describe('assessSimulatorSessions', () => {
  it('gives what a plain evaluation from the definitions gives', () => {
    let splits = 0;
    fc.assert(
      fc.property(arbitrarySessions, arbitraryPolicy, (sessions, policy) => {
        const steps = [{ from: 0, policy }];
        const all = assessSimulatorSessions(sessions, { policyStepsFor: () => steps });
        const expected = referenceSimulator(sessions, policy);
        const of = (name: 'low' | 'high') =>
          [...all.values()]
            .flatMap(({ levels }) => levels.filter(({ level }) => level === name))
            .map(({ evaluation }) => roundedOff(evaluation));
        const acrossLevels = [...all].filter(([, assessment]) => assessment.acrossLevels).map(([id]) => id);
        expect(acrossLevels).toEqual([...expected.split]);
        splits += acrossLevels.length;
        expect(of('low')).toEqual(expected.low.map(roundedOff));
        expect(of('high')).toEqual(expected.high.map(roundedOff));
      }),
      { numRuns: 600, seed: 7 },
    );
    // The rule was put to the test, not only its absence.
    expect(splits).toBeGreaterThan(20);
  });

  it('finds R-4s within a session the same when the levels change places or all signs are turned', () => {
    fc.assert(
      fc.property(arbitrarySessions, (sessions) => {
        const policyStepsFor = () => [
          { from: 0, policy: { ...defaultControlPolicy, minimumSize: 3, baselineSize: 8 } },
        ];
        const across = (list: readonly SimulatorSession[]) =>
          [...assessSimulatorSessions(list, { policyStepsFor })].map(([id, { acrossLevels }]) => [
            id,
            acrossLevels,
          ]);
        const other = { low: 'high', high: 'low' } as const;
        const swapped = sessions.map((session) => ({
          ...session,
          levels: session.levels.map((level) => ({ ...level, level: other[level.level] })).reverse(),
        }));
        const turned = sessions.map((session) => ({
          ...session,
          levels: session.levels.map((level) => ({
            ...level,
            reading: { ...level.reading, dlco: 2 * level.targetMlMinMmHg - level.reading.dlco },
          })),
        }));
        expect(across(swapped)).toEqual(across(sessions));
        expect(across(turned)).toEqual(across(sessions));
      }),
      { numRuns: 200 },
    );
  });
});

/** To nine decimals: sums in another order. */
function roundedOff(evaluation: PointEvaluation) {
  const round = (value: number | null) => (value === null ? null : Number(value.toFixed(9)) + 0);
  const { mean, sd, z, ewma, cusumHigh, cusumLow } = evaluation;
  return {
    ...evaluation,
    mean: round(mean),
    sd: round(sd),
    z: round(z),
    ewma: round(ewma),
    cusumHigh: round(cusumHigh),
    cusumLow: round(cusumLow),
  };
}
