import { describe, expect, it } from 'vitest';
import {
  averageRunLength,
  defaultControlPolicy,
  falseAlarmsPerYear,
  normalTail,
  type RuleId,
  runLength,
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
