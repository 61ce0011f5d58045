import { describe, expect, it } from 'vitest';
import {
  averageRunLength,
  defaultControlPolicy,
  falseAlarmsPerYear,
  normalTail,
  type RuleId,
  runLength,
  runsUntilOutside,
  weeksUntilNoticed,
} from '../../src/core/index.ts';
import { solveLinear } from '../../src/core/linearSystem.ts';
import { gaussLegendre } from '../../src/core/runLengthIntegral.ts';
import { simulatedRunLength } from '../../src/core/runLengthSimulation.ts';
import { cusumRunLengths, ewmaRunLengths, exactRunLengths } from '../reference/runLengths.ts';

/** Half a unit of the last of three or four printed digits, and never more than 0.5 %. */
const within = (found: number, printed: number) => Math.abs(found / printed - 1) < 0.005;

describe('averageRunLength of z-rules', () => {
  it.each(exactRunLengths)('of %j agrees with the published figures to 0.5 %%', (rules, byShift) => {
    for (const [shift, printed] of byShift.entries()) {
      const found = averageRunLength(rules, shift);
      expect(within(found, printed), `${found} for ${printed} at ${shift} SD`).toBe(true);
    }
  });

  it('of a rule on single runs is one over its probability', () => {
    // Geometric distribution: 1/(2Φ(−3)) = 370.398, 1/(2Φ(−2)) = 21.978.
    expect(averageRunLength(['1-3s'], 0)).toBeCloseTo(1 / (2 * normalTail(3)), 9);
    expect(averageRunLength(['1-2s'], 0)).toBeCloseTo(1 / (2 * normalTail(2)), 10);
    expect(averageRunLength(['1-3s'], 1)).toBeCloseTo(1 / (normalTail(2) + normalTail(4)), 10);
  });

  it('of ten on one side is that of runs of heads or tails', () => {
    // Feller, volume 1, XIII.7: ten of one of two equally likely kinds take 2^10 − 1 trials.
    expect(averageRunLength(['10x'], 0)).toBeCloseTo(1023, 6);
  });

  it('is the same for a shift up and down, and does not mind order or repetition of rules', () => {
    const rules: RuleId[] = ['4-1s', '1-3s', '10x'];
    expect(averageRunLength(rules, -1.3)).toBeCloseTo(averageRunLength(rules, 1.3), 9);
    expect(averageRunLength(['10x', '1-3s', '4-1s', '1-3s'], 1.3)).toBe(averageRunLength(rules, 1.3));
  });

  it('agrees with a simulation by the rules that judge a series, within 3 standard errors', () => {
    for (const [rules] of exactRunLengths) {
      const { runs, standardError } = simulatedRunLength(rules, 1, defaultControlPolicy);
      const exact = averageRunLength(rules, 1);
      expect(
        Math.abs(runs - exact),
        `${rules.join('+')}: ${runs} ± ${standardError} for ${exact}`,
      ).toBeLessThan(3 * standardError);
    }
  });
});

describe('averageRunLength of EWMA and CUSUM', () => {
  it('of EWMA(0.2, 2.86) agrees with the published figures to 0.5 %', () => {
    const policy = { ...defaultControlPolicy, ewma: ewmaRunLengths.ewma };
    for (const [shift, printed] of ewmaRunLengths.byShift.entries()) {
      expect(within(averageRunLength(['EWMA'], shift, policy), printed), `${shift} SD`).toBe(true);
    }
  });

  it('of CUSUM(0.5, 5) agrees with the published figures to 0.5 %', () => {
    const policy = { ...defaultControlPolicy, cusum: cusumRunLengths.cusum };
    for (const [shift, printed] of cusumRunLengths.byShift.entries()) {
      expect(within(averageRunLength(['CUSUM'], shift, policy), printed), `${shift} SD`).toBe(true);
    }
  });

  it('of an EWMA that forgets everything is that of 1-3s', () => {
    const policy = { ...defaultControlPolicy, ewma: { lambda: 1, limit: 3 } };
    expect(averageRunLength(['EWMA'], 0, policy)).toBeCloseTo(1 / (2 * normalTail(3)), 4);
  });

  it.each(['EWMA', 'CUSUM'] as const)('of %s agrees with its simulation within 3 standard errors', (rule) => {
    const { runs, standardError } = simulatedRunLength([rule], 1, defaultControlPolicy);
    expect(Math.abs(runs - averageRunLength([rule], 1))).toBeLessThan(3 * standardError);
  });
});

describe('runLength', () => {
  it('says how it was found', () => {
    expect(runLength(['1-3s', '2-2s'], 1)).toMatchObject({ method: 'markov-chain', standardError: 0 });
    expect(runLength(['EWMA'], 1)).toMatchObject({ method: 'integral-equation', standardError: 0 });
    const mixed = runLength(['1-3s', 'EWMA'], 2);
    expect(mixed.method).toBe('simulation');
    expect(mixed.standardError / mixed.runs).toBeLessThanOrEqual(0.01);
    // Two rules together notice no later than either alone.
    expect(mixed.runs - 3 * mixed.standardError).toBeLessThan(averageRunLength(['EWMA'], 2));
  });

  it('gives the same answer to the same question', () => {
    expect(runLength(['7T', '1-2s'], 0.5)).toEqual(runLength(['7T', '1-2s'], 0.5));
  });

  it('refuses no rules, an unknown rule, and a shift that is not a number', () => {
    expect(() => averageRunLength([], 1)).toThrow(/rules is empty/);
    expect(() => averageRunLength(['1-4s' as RuleId], 1)).toThrow(/rules holds 1-4s/);
    expect(() => averageRunLength(['1-3s'], Number.NaN)).toThrow(/shiftSd is NaN SD/);
    const policy = { ...defaultControlPolicy, ewma: { lambda: 2, limit: 3 } };
    expect(() => averageRunLength(['EWMA'], 1, policy)).toThrow(/averageRunLength: policy.ewma.lambda is 2/);
  });
});

describe('runLength where next to nothing is noticed', () => {
  it('is without end, and no sum of lost digits', () => {
    // Two runs on opposite sides of a mean that has moved by 15 SD: less likely than 1e-60.
    expect(averageRunLength(['R-4s'], 15)).toBe(Number.POSITIVE_INFINITY);
    // 10 SD of the average on either side: less likely than 1e-22 a run.
    const far = { ...defaultControlPolicy, ewma: { lambda: 0.2, limit: 10 } };
    expect(averageRunLength(['EWMA'], 0, far)).toBe(Number.POSITIVE_INFINITY);
    const deaf = { ...far, cusum: { slack: 3, decision: 30 } };
    expect(averageRunLength(['CUSUM'], 0, deaf)).toBe(Number.POSITIVE_INFINITY);
    expect(averageRunLength(['EWMA', 'CUSUM'], 0, deaf)).toBe(Number.POSITIVE_INFINITY);
    expect(falseAlarmsPerYear({ rules: ['EWMA'], analyzers: 6, policy: far })).toBe(0);
  });

  it('of CUSUM after a huge shift is what the sum takes to get there', () => {
    // By hand: from 0 past 4.77 by one z of 40; the sum of the other side never leaves 0.
    expect(averageRunLength(['CUSUM'], 40)).toBeCloseTo(1, 12);
    expect(averageRunLength(['CUSUM'], -40)).toBeCloseTo(1, 12);
  });

  it('of an EWMA that remembers long agrees with its simulation within 3 standard errors', () => {
    const policy = { ...defaultControlPolicy, ewma: { lambda: 0.01, limit: 10 } };
    const { runs, standardError } = simulatedRunLength(['EWMA'], 1, policy);
    expect(Math.abs(runs - averageRunLength(['EWMA'], 1, policy))).toBeLessThan(3 * standardError);
    expect(averageRunLength(['EWMA'], 0, policy)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('runsUntilOutside', () => {
  it('is one over the probability that a run lies outside', () => {
    // 1/(2Φ(−3)) = 370.398 and 1/(2Φ(−2)) = 21.978, as of a rule on single runs.
    expect(runsUntilOutside({ mean: 0, sd: 1, low: -3, high: 3 })).toBeCloseTo(370.398, 3);
    expect(runsUntilOutside({ mean: 3, sd: 0.15, low: 2.7, high: 3.3 })).toBeCloseTo(21.978, 3);
    // Half of the runs lie beyond a limit at the mean.
    expect(runsUntilOutside({ mean: 3.3, sd: 0.036, low: 2.7, high: 3.3 })).toBeCloseTo(2, 10);
  });

  it('of the published series with a leak of 100 mL is most of two years of weekly runs', () => {
    // Mean 3.117, SD 0.036: (3.3 − 3.217)/0.036 = 2.306 SD, whose tail is 0.01056 by the printed normal table.
    const runs = runsUntilOutside({ mean: 3.217, sd: 0.036, low: 2.7, high: 3.3 });
    expect(Math.abs(runs * 0.01056 - 1)).toBeLessThan(0.002);
  });

  it('is without end where no run ever does, and refuses what cannot be', () => {
    expect(runsUntilOutside({ mean: 3, sd: 0.001, low: 2.7, high: 3.3 })).toBe(Number.POSITIVE_INFINITY);
    expect(() => runsUntilOutside({ mean: 3, sd: 0, low: 2.7, high: 3.3 })).toThrow(/sd is 0/);
    expect(() => runsUntilOutside({ mean: Number.NaN, sd: 1, low: 2.7, high: 3.3 })).toThrow(/mean is NaN/);
    expect(() => runsUntilOutside({ mean: 3, sd: 1, low: 3.3, high: 2.7 })).toThrow(/limits are 3.3 and 2.7/);
  });
});

describe('weeksUntilNoticed', () => {
  it('waits 44 weeks by 1-3s and 10 by EWMA for a shift of one SD, in mL or mL/min/mmHg alike', () => {
    expect(weeksUntilNoticed({ rules: ['1-3s'], shift: 36, sd: 36 })).toBeCloseTo(43.9, 1);
    expect(weeksUntilNoticed({ rules: ['EWMA'], shift: -0.08, sd: 0.08 })).toBeCloseTo(9.8, 1);
    expect(weeksUntilNoticed({ rules: ['1-3s'], shift: 36, sd: 36, runsPerWeek: 2 })).toBeCloseTo(21.95, 1);
  });

  it('refuses an SD of 0', () => {
    expect(() => weeksUntilNoticed({ rules: ['1-3s'], shift: 36, sd: 0 })).toThrow(/sd is 0/);
    expect(() => weeksUntilNoticed({ rules: ['1-3s'], shift: 36, sd: 36, runsPerWeek: 0 })).toThrow(
      /runsPerWeek is 0/,
    );
  });
});

describe('falseAlarmsPerYear', () => {
  it('of six analyzers under 1-3s is 1.7, of two series each', () => {
    // 6 · 2 · 52.18 / 370.4, by hand.
    expect(falseAlarmsPerYear({ rules: ['1-3s'], analyzers: 6 })).toBeCloseTo(1.69, 2);
    expect(falseAlarmsPerYear({ rules: ['1-3s'], analyzers: 6, seriesPerAnalyzer: 1 })).toBeCloseTo(0.845, 3);
  });

  it('refuses a fleet of none', () => {
    expect(() => falseAlarmsPerYear({ rules: ['1-3s'], analyzers: 0 })).toThrow(/analyzers is 0/);
  });
});

describe('gaussLegendre', () => {
  it('has the nodes and weights of the printed tables', () => {
    // Abramowitz & Stegun, table 25.4, n = 3: 0, ±0.774596669241483; 8/9, 5/9.
    const { nodes, weights } = gaussLegendre(3, -1, 1);
    expect(nodes.map((node) => node.toFixed(12))).toEqual([
      '-0.774596669241',
      nodes[1]?.toFixed(12),
      '0.774596669241',
    ]);
    expect(nodes[1]).toBeCloseTo(0, 15);
    expect(weights[0]).toBeCloseTo(5 / 9, 14);
    expect(weights[1]).toBeCloseTo(8 / 9, 14);
  });
});

describe('solveLinear', () => {
  it('solves a system that needs its rows exchanged', () => {
    const solved = solveLinear([Float64Array.of(0, 2), Float64Array.of(3, 1)], Float64Array.of(4, 5));
    expect([...solved]).toEqual([1, 2]);
  });
  it('refuses a singular one', () => {
    expect(() => solveLinear([Float64Array.of(1, 2), Float64Array.of(2, 4)], Float64Array.of(1, 2))).toThrow(
      /singular/,
    );
  });
});
