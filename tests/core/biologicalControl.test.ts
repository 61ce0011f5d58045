import { describe, expect, it } from 'vitest';
import {
  assessBiologicalTests,
  biologicalPolicy,
  biologicalReach,
  type ControlClosure,
  coefficientOfVariation,
  defaultControlPolicy,
  haemoglobinGPerDl,
  predictionFactor,
  publishedCheckLimits,
  tQuantile,
} from '../../src/core/index.ts';
import { biologicalTests, found, published, sixTests } from './controlFixtures.ts';
import { onlyRules, week } from './seriesFixtures.ts';

/** The test that comes after the first six. */
const seventh = (dlco: number) => found(assessBiologicalTests(biologicalTests([...sixTests, dlco])), 't7');

describe('publishedCheckLimits of a biological control', () => {
  it('are 12 %, 3.0 mL/min/mmHg and a CV of 6 %', () => {
    // Hegewald et al., Respiration 2012 (abstract), as the project's domain notes have it.
    expect(publishedCheckLimits.biological).toMatchObject({ fraction: 0.12, dlcoMlMinMmHg: 3, cv: 0.06 });
  });
});

describe('biologicalReach', () => {
  it('is the narrower of the two limits', () => {
    // By hand: 12 % of 15.0 is 1.8, of 25.0 it is 3.0, of 40.0 it is 4.8.
    const reach = (mean: number) => biologicalReach(mean, publishedCheckLimits.biological);
    expect([reach(15), reach(25), reach(40)]).toEqual([expect.closeTo(1.8, 12), 3, 3]);
  });
});

describe('assessBiologicalTests: published limits', () => {
  it('judges nothing during the first six tests, and lays the limits about their mean after them', () => {
    const all = assessBiologicalTests(biologicalTests([...sixTests, 26]));
    for (const [index, id] of ['t1', 't2', 't3', 't4', 't5', 't6'].entries()) {
      expect(found(all, id)).toMatchObject({
        firstTests: { n: index, meanMlMinMmHg: null },
        offMlMinMmHg: null,
        withinPublished: null,
        verdict: { word: 'pass', establishing: true, findings: [] },
      });
    }
    const next = found(all, 't7');
    expect(next.firstTests.n).toBe(6);
    expect(next.firstTests.meanMlMinMmHg).toBeCloseTo(25, 12);
    expect(next.offMlMinMmHg).toBeCloseTo(1, 12);
    expect(next.offFraction).toBeCloseTo(0.04, 12);
    expect(next).toMatchObject({ withinPublished: true, verdict: { word: 'pass', establishing: false } });
  });

  it('includes both ends: 12 % of 25.0 is 3.0, and 28.0 and 22.0 are in', () => {
    expect(seventh(28).withinPublished).toBe(true);
    expect(seventh(22).withinPublished).toBe(true);
    expect(seventh(28.01).withinPublished).toBe(false);
    expect(seventh(21.99).withinPublished).toBe(false);
  });

  it.each([
    // By hand: 12 % of 15.0 is 1.8, of 40.0 it is 4.8.
    [15, 16.9, 'fraction', 1.8],
    [40, 43.1, 'absolute', 3],
  ] as const)('breaks at the narrower of the two: mean %d, read %d, the %s', (mean, read, which, limit) => {
    const scaled = sixTests.map((value) => (value * mean) / 25);
    const test = found(assessBiologicalTests(biologicalTests([...scaled, read])), 't7');
    expect(test.verdict.word).toBe('fail');
    expect(published(test)).toEqual([
      {
        kind: 'published-limit',
        series: 'dlco',
        value: read,
        target: expect.closeTo(mean, 10),
        limit: expect.closeTo(limit, 10),
        beyond: [which],
      },
    ]);
  });

  it('names both when both are broken', () => {
    expect(published(seventh(28.1))).toMatchObject([{ beyond: ['fraction', 'absolute'] }]);
  });

  it('keeps the first six when more have come, and begins anew with an epoch', () => {
    const steady = [...sixTests, ...sixTests, ...sixTests, 26.5];
    const long = assessBiologicalTests(biologicalTests(steady));
    expect(found(long, 't19').firstTests.meanMlMinMmHg).toBeCloseTo(25, 12);
    const parted = biologicalTests(steady).map((test, index) => ({ ...test, epoch: index < 12 ? 0 : 1 }));
    const anew = assessBiologicalTests(parted);
    expect(found(anew, 't13')).toMatchObject({ firstTests: { n: 0 }, withinPublished: null });
    expect(found(anew, 't19').firstTests.n).toBe(6);
  });

  it('leaves an excluded test out of the first six, and says of it how far it lies off', () => {
    const tests = biologicalTests([40, ...sixTests, 40, 25]).map((test) =>
      test.reading.dlco === 40 ? { ...test, excluded: true } : test,
    );
    const all = assessBiologicalTests(tests);
    expect(found(all, 't9').firstTests).toEqual({ n: 6, meanMlMinMmHg: expect.closeTo(25, 12) });
    expect(found(all, 't8')).toMatchObject({
      withinPublished: false,
      dlco: { z: null, accepted: false, failureOpen: false },
    });
    expect(found(all, 't9')).toMatchObject({ dlco: { failureOpen: false }, verdict: { word: 'pass' } });
  });

  it('never mixes persons or analyzers', () => {
    const one = biologicalTests(sixTests);
    const other = biologicalTests(sixTests.map((value) => value + 10)).map((test, index) => ({
      ...test,
      id: `o${index + 1}`,
      subjectId: index % 2 === 0 ? 'subject-2' : test.subjectId,
      analyzerId: index % 2 === 0 ? test.analyzerId : 'analyzer-2',
    }));
    const mixed = [...one, ...other].sort((a, b) => a.at - b.at);
    const all = assessBiologicalTests(mixed);
    expect(found(all, 'o6').firstTests.n).toBe(2);
    for (const { id } of one) expect(all.get(id)).toEqual(assessBiologicalTests(one).get(id));
  });

  it('takes a DLCO in the other unit for what it is', () => {
    // 1 mmol/min/kPa is 2.987 mL/min/mmHg: ERS/ATS 2017, recalled.
    const tests = biologicalTests([...sixTests, 26]).map((test) => ({
      ...test,
      reading: { ...test.reading, dlco: test.reading.dlco / 2.987, dlcoUnit: 'mmol/min/kPa' as const },
    }));
    expect(found(assessBiologicalTests(tests), 't7').offMlMinMmHg).toBeCloseTo(1, 10);
  });
});

describe('assessBiologicalTests: own limits and rules', () => {
  it('judges from the seventh test on by prediction factors', () => {
    // R 4.2.2: -qt(pnorm(-2), 5) * sqrt(1 + 1/6) is 2.8608, -qt(pnorm(-3), 5) * sqrt(1 + 1/6) is 5.9483. SD of the six is 1.
    const warned = seventh(25 + 2.87);
    expect(warned.dlco.z).toBeCloseTo(2.87, 10);
    expect(warned.verdict).toMatchObject({ word: 'warn', findings: [{ rule: '1-2s', across: 'tests' }] });
    expect(seventh(25 + 2.85).verdict.word).toBe('pass');
    // Beyond 3 SD but within the factor: only the published limit fails it.
    expect(seventh(25 + 3.2).verdict.findings.map((finding) => finding.kind)).toEqual([
      'published-limit',
      'signal',
    ]);
    expect(seventh(25 + 3.2).dlco.signals.map(({ rule }) => rule)).toEqual(['1-2s']);
  });

  it('would alarm on 3.9 % of good tests by a plain 3 SD of six', () => {
    // scipy 1.17.1: 2*stats.t.sf(3/sqrt(7/6), 5) is 0.0390192.
    const tail = 0.03901915828494074 / 2;
    expect(-tQuantile(tail, 5) * Math.sqrt(7 / 6)).toBeCloseTo(3, 8);
    expect(predictionFactor(6, 3)).toBeCloseTo(5.9483, 3);
  });

  it('freezes the baseline at twenty and takes the rest from the analyzer’s policy', () => {
    const strict = { ...defaultControlPolicy, limits: 'rolling' as const, baselineSize: 40, minimumSize: 12 };
    expect(biologicalPolicy({ ...strict, severity: { '7T': 'action' } })).toMatchObject({
      limits: 'baseline',
      baselineSize: 20,
      minimumSize: 6,
      smallSample: true,
      severity: { '7T': 'action' },
      ewma: strict.ewma,
    });
    const values = Array.from({ length: 26 }, (_, index) => sixTests[index % 6] ?? 25);
    const all = assessBiologicalTests(biologicalTests(values), {
      policyStepsFor: () => [{ from: 0, policy: { ...strict, severity: {} } }],
    });
    expect(found(all, 't7').dlco.n).toBe(6);
    expect(found(all, 't26').dlco.n).toBe(20);
  });

  it('opens a failure in the series that is out, and closes it for that series alone', () => {
    const tests = biologicalTests([...sixTests, 29, 25, 25]);
    const closure: ControlClosure = {
      analyzerId: 'analyzer-1',
      series: { kind: 'biological', subjectId: 'subject-1', quantity: 'dlco' },
      at: 7 * week,
    };
    const open = found(assessBiologicalTests(tests), 't9');
    expect(open).toMatchObject({
      dlco: { failureOpen: true, accepted: false },
      va: { failureOpen: false, accepted: true },
      verdict: { word: 'pass' },
    });
    const closed = assessBiologicalTests(tests, { closures: [closure] });
    expect(found(closed, 't8').dlco.failureOpen).toBe(true);
    expect(found(closed, 't9').dlco.failureOpen).toBe(false);
    for (const series of [
      { ...closure.series, quantity: 'va' as const },
      { ...closure.series, subjectId: 'subject-2' },
      { kind: 'simulator' as const, level: 'low' as const },
    ]) {
      const other = assessBiologicalTests(tests, { closures: [{ ...closure, series }] });
      expect(found(other, 't9').dlco.failureOpen).toBe(true);
    }
  });

  it('judges by the severities that the analyzer’s policy has on the day', () => {
    const policyStepsFor = (analyzerId: string) =>
      analyzerId === 'analyzer-1' ? [{ from: 0, policy: onlyRules(['1-2s'], 'action') }] : [];
    const tests = biologicalTests([...sixTests, 27.9]);
    expect(found(assessBiologicalTests(tests, { policyStepsFor }), 't7').verdict.word).toBe('fail');
    const other = tests.map((test) => ({ ...test, analyzerId: 'analyzer-2' }));
    expect(found(assessBiologicalTests(other, { policyStepsFor }), 't7').verdict.word).toBe('warn');
  });
});

describe('assessBiologicalTests: what cannot be', () => {
  it('gives nothing of nothing', () => {
    expect(assessBiologicalTests([]).size).toBe(0);
  });

  it('has no own limits of equal tests, but published ones', () => {
    expect(found(assessBiologicalTests(biologicalTests([25, 25, 25, 25, 25, 25, 29])), 't7')).toMatchObject({
      dlco: { z: null },
      withinPublished: false,
      verdict: { word: 'fail', establishing: true },
    });
  });

  it('refuses an order that is none, an id that comes twice and a closure without a moment', () => {
    const tests = biologicalTests([25, 25]);
    const [first, second] = tests;
    if (first === undefined || second === undefined) throw new Error('two tests');
    expect(() => assessBiologicalTests([second, first])).toThrow(/control t1 is 0 ms, not at or after/);
    expect(() => assessBiologicalTests([first, first])).toThrow(/id t1 comes twice/);
    const series = { kind: 'biological' as const, subjectId: 'subject-1', quantity: 'va' as const };
    const closures = [{ analyzerId: 'analyzer-1', series, at: Number.NaN }];
    expect(() => assessBiologicalTests(tests, { closures })).toThrow(/closures\[0\] is NaN ms/);
  });

  it.each([
    ['a DLCO of 0', { reading: { dlco: 0, dlcoUnit: 'mL/min/mmHg' as const, vaL: 6 } }, /dlco is 0/],
    [
      'a DLCO that is none',
      { reading: { dlco: Number.NaN, dlcoUnit: 'mL/min/mmHg' as const, vaL: 6 } },
      /NaN/,
    ],
    ['an endless VA', { reading: { dlco: 25, dlcoUnit: 'mL/min/mmHg' as const, vaL: Infinity } }, /vaL/],
    ['no limit', { limits: { fraction: 0.12, dlcoMlMinMmHg: 0 } }, /limits.dlcoMlMinMmHg is 0/],
    ['no epoch', { epoch: Number.NaN }, /epoch is NaN/],
  ])('refuses %s, or leaves it out where somebody asks for that', (_, over, message) => {
    const tests = biologicalTests([25, 25, 25]).map((test) =>
      test.id === 't2' ? { ...test, ...over } : test,
    );
    expect(() => assessBiologicalTests(tests)).toThrow(message);
    expect(() => assessBiologicalTests(tests)).toThrow(/control t2/);
    const left: string[] = [];
    const all = assessBiologicalTests(tests, { onImpossible: (id) => left.push(id) });
    expect(left).toEqual(['t2']);
    expect([...all.keys()]).toEqual(['t1', 't3']);
    expect(found(all, 't3').firstTests.n).toBe(1);
  });
});

describe('coefficientOfVariation', () => {
  it('is SD over mean', () => {
    // By hand: SD of 24, 25, 26 is 1.
    expect(coefficientOfVariation([24, 25, 26])).toBeCloseTo(0.04, 14);
    expect(coefficientOfVariation(sixTests)).toBeCloseTo(1 / 25, 12);
  });

  it('is undefined of none and one, 0 of equal ones, and refuses what is not above 0', () => {
    expect(coefficientOfVariation([])).toBeUndefined();
    expect(coefficientOfVariation([25])).toBeUndefined();
    expect(coefficientOfVariation([25, 25])).toBe(0);
    expect(() => coefficientOfVariation([25, 0])).toThrow(/values\[1\] is 0/);
    expect(() => coefficientOfVariation([Number.NaN])).toThrow(/values\[0\] is NaN/);
  });
});

describe('haemoglobinGPerDl', () => {
  it('reads the three units that laboratories write', () => {
    // 14.6 g/dL is 146 g/L, and 9.06 mmol/L by 16 114.5 g/mol of a quarter molecule: recalled from laboratory tables.
    expect(haemoglobinGPerDl(14.6, 'g/dL')).toBe(14.6);
    expect(haemoglobinGPerDl(146, 'g/L')).toBeCloseTo(14.6, 12);
    expect(haemoglobinGPerDl(9.06, 'mmol/L')).toBeCloseTo(14.6, 2);
  });

  it('refuses what is no concentration', () => {
    expect(() => haemoglobinGPerDl(0, 'g/L')).toThrow('haemoglobinGPerDl: value is 0 g/L');
    expect(() => haemoglobinGPerDl(Number.NaN, 'g/dL')).toThrow(RangeError);
  });
});
