import { describe, expect, it } from 'vitest';
import { type ControlPolicy, evaluateSeries, ewmaLimit, type RuleId, ruleIds } from '../../src/core/index.ts';
import { nistCusum, nistEwma } from '../reference/controlCharts.ts';
import { inSd, onlyRules, unitBaseline, week, weekly } from './seriesFixtures.ts';

/** Feeds z after a baseline and a run exactly on the mean; tells at which of them (1 is the first) the rule fires. */
function firingsOf(rule: RuleId, z: readonly number[]): number[] {
  const points = weekly([...unitBaseline, 0, ...z.map(inSd)]);
  const evaluations = evaluateSeries(points, onlyRules([rule])).slice(21);
  return evaluations.flatMap(({ signals }, index) => (signals.length > 0 ? [index + 1] : []));
}

function idsOf(rule: RuleId, z: readonly number[]): readonly string[] {
  const points = weekly([...unitBaseline, 0, ...z.map(inSd)]);
  return evaluateSeries(points, onlyRules([rule])).at(-1)?.signals[0]?.ids ?? [];
}

const repeated = (count: number, z: number): number[] => Array<number>(count).fill(z);

describe('1-2s', () => {
  it('fires beyond 2 SD on either side and not at 2 SD', () => {
    expect(firingsOf('1-2s', [2, 2.001, -2, -2.001, 1.999])).toEqual([2, 4]);
  });
});

describe('1-3s', () => {
  it('fires beyond 3 SD on either side and not up to it', () => {
    expect(firingsOf('1-3s', [2.999, 3.001, -2.999, -3.001])).toEqual([2, 4]);
  });
  it('names the run', () => {
    expect(idsOf('1-3s', [3.2])).toEqual(['p22']);
  });
});

describe('2-2s', () => {
  it('fires at the second of two beyond 2 SD on the same side', () => {
    expect(firingsOf('2-2s', [2.1, 2.1, 0, -2.1, -2.1])).toEqual([2, 5]);
  });
  it('does not fire on opposite sides, at 2 SD, or across a run within', () => {
    expect(firingsOf('2-2s', [2.1, -2.1, 0, 2, 2.1, 0, 2.1, 0, 2.1])).toEqual([]);
  });
  it('fires again at a third', () => {
    expect(firingsOf('2-2s', [2.1, 2.2, 2.3])).toEqual([2, 3]);
  });
  it('names both runs, oldest first', () => {
    expect(idsOf('2-2s', [2.1, 2.2])).toEqual(['p22', 'p23']);
  });
});

describe('R-4s', () => {
  it('fires when two consecutive runs lie beyond 2 SD on opposite sides', () => {
    expect(firingsOf('R-4s', [2.1, -2.1, 0, -2.1, 2.1])).toEqual([2, 5]);
  });
  it('does not fire on one side, nor when only their distance exceeds 4 SD', () => {
    expect(firingsOf('R-4s', [2.1, 2.1, 0, 2.9, -1.9, 0, 2, -2.1])).toEqual([]);
  });
  it('names both runs, oldest first', () => {
    expect(idsOf('R-4s', [2.1, -2.2])).toEqual(['p22', 'p23']);
  });
});

describe('4-1s', () => {
  it('fires at the fourth of four beyond 1 SD on one side, and at a fifth', () => {
    expect(firingsOf('4-1s', [...repeated(5, 1.1), 0, ...repeated(4, -1.1)])).toEqual([4, 5, 10]);
  });
  it('does not fire at three, at 1 SD, or with one on the other side', () => {
    expect(
      firingsOf('4-1s', [...repeated(3, 1.1), 0, ...repeated(4, 1), 0, 1.1, 1.1, -1.1, 1.1, 1.1]),
    ).toEqual([]);
  });
  it('names the four runs, oldest first', () => {
    expect(idsOf('4-1s', repeated(5, 1.1))).toEqual(['p23', 'p24', 'p25', 'p26']);
  });
});

describe('10x', () => {
  it('fires at the tenth of ten on one side of the mean', () => {
    expect(firingsOf('10x', [...repeated(11, 0.1), -0.1])).toEqual([10, 11]);
    expect(firingsOf('10x', repeated(10, -0.1))).toEqual([10]);
  });
  it('is broken by a run on the mean itself', () => {
    expect(firingsOf('10x', [...repeated(9, 0.1), 0, ...repeated(9, 0.1)])).toEqual([]);
  });
  it('names the ten runs, oldest first', () => {
    const ids = idsOf('10x', repeated(12, 0.1));
    expect(ids).toHaveLength(10);
    expect([ids[0], ids[9]]).toEqual(['p24', 'p33']);
  });
});

describe('7T', () => {
  it('fires at the seventh of seven values that each rise, or each fall', () => {
    // The baseline ends low, so the run on the mean before these has already risen: two of the seven values.
    expect(firingsOf('7T', [0.1, 0.2, 0.3, 0.4, 0.5, 0.6])).toEqual([5, 6]);
    expect(firingsOf('7T', [-0.1, -0.2, -0.3, -0.4, -0.5, -0.6])).toEqual([6]);
  });
  it('does not fire after five steps, nor across two equal values', () => {
    expect(firingsOf('7T', [0.1, 0.2, 0.3, 0.4])).toEqual([]);
    expect(firingsOf('7T', [-0.1, -0.2, -0.3, -0.4, -0.5])).toEqual([]);
    expect(firingsOf('7T', [0.1, 0.2, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9])).toEqual([]);
  });
  it('names the seven runs, oldest first', () => {
    expect(idsOf('7T', [0.1, 0.2, 0.3, 0.4, 0.5, 0.6])).toEqual([
      'p21',
      'p22',
      'p23',
      'p24',
      'p25',
      'p26',
      'p27',
    ]);
  });
});

/** Judges z by a known mean and SD: whatever λ, L, k and h are, a baseline of ±1 stands before them. */
function judged(z: readonly number[], change: Partial<ControlPolicy>) {
  const policy = { ...onlyRules(['EWMA', 'CUSUM']), ...change };
  // A closed failure sets both to zero after the baseline.
  const breached = { id: 'breached', at: 20 * week, value: 0, epoch: 0, breached: true };
  const after = z.map((each, index) => ({
    id: `z${index + 1}`,
    at: (21 + index) * week,
    value: inSd(each),
    epoch: 0,
  }));
  return evaluateSeries([...weekly(unitBaseline), breached, ...after], policy, [20 * week]).slice(21);
}

describe('EWMA', () => {
  const nist = { ewma: { lambda: nistEwma.lambda, limit: 3 } };

  it('gives the averages of the NIST example to their two decimals', () => {
    const z = nistEwma.values.map((value) => (value - nistEwma.target) / nistEwma.sd);
    const averages = judged(z, nist).map(({ ewma }) => nistEwma.target + (ewma ?? Number.NaN) * nistEwma.sd);
    expect(averages).toHaveLength(nistEwma.averages.length);
    for (const [index, average] of averages.entries()) {
      expect(Math.abs(average - (nistEwma.averages[index] ?? Number.NaN)), `week ${index + 1}`).toBeLessThan(
        0.0051,
      );
    }
  });

  it.each([
    ['upper', nistEwma.upper],
    ['lower', nistEwma.lower],
  ])('fires beyond the %s limit of the NIST example and not within', (_side, limit) => {
    // From a start of 0, one run moves the average by λ·z.
    const z = (limit - nistEwma.target) / nistEwma.sd / nistEwma.lambda;
    const rulesAt = (one: number) => judged([one], nist)[0]?.signals.map(({ rule }) => rule);
    expect(rulesAt(z * 1.0001)).toContain('EWMA');
    expect(rulesAt(z * 0.9999)).not.toContain('EWMA');
  });
});

describe('CUSUM', () => {
  it('first fires at observation 14 of the NIST example', () => {
    const { slack, decision, target, values, firstSignalAt } = nistCusum;
    const evaluations = judged(
      values.map((value) => value - target),
      { cusum: { slack, decision } },
    );
    const fired = evaluations.map(({ signals }) => signals.some(({ rule }) => rule === 'CUSUM'));
    expect(fired.indexOf(true) + 1).toBe(firstSignalAt);
  });

  it('sums upwards and downwards as worked by hand, both positive', () => {
    const [first, second] = judged([2, -2.25], {});
    expect([first?.cusumHigh, first?.cusumLow]).toEqual([expect.closeTo(1.5, 12), 0]);
    expect([second?.cusumHigh, second?.cusumLow]).toEqual([0, expect.closeTo(1.75, 12)]);
  });

  it('fires beyond the decision on either side and not within', () => {
    const rulesAt = (z: number) =>
      judged([z], { cusum: { slack: 0.5, decision: 4.5 } })[0]?.signals.map(({ rule }) => rule) ?? [];
    expect(rulesAt(4.999)).not.toContain('CUSUM');
    expect(rulesAt(5.001)).toContain('CUSUM');
    expect(rulesAt(-5.001)).toContain('CUSUM');
  });
});

describe('EWMA and CUSUM in a series', () => {
  it.each(['EWMA', 'CUSUM'] as const)('%s names only the run at which it fires', (rule) => {
    expect(idsOf(rule, repeated(12, 1.9))).toEqual(['p33']);
  });
  it('do not fire on a steady series', () => {
    expect(firingsOf('EWMA', [1, -1, 1, -1, 1, -1])).toEqual([]);
    expect(firingsOf('CUSUM', [1, -1, 1, -1, 1, -1])).toEqual([]);
  });
});

describe('ruleIds', () => {
  it('lists every rule once, in the order signals are given in', () => {
    expect(ruleIds).toEqual(['1-2s', '1-3s', '2-2s', 'R-4s', '4-1s', '10x', '7T', 'EWMA', 'CUSUM']);
    const points = weekly([...unitBaseline, 0, inSd(3.5), inSd(3.6)]);
    const signals = evaluateSeries(points, onlyRules(ruleIds)).at(-1)?.signals ?? [];
    expect(signals.map(({ rule }) => rule)).toEqual(['1-2s', '1-3s', '2-2s', 'EWMA', 'CUSUM']);
  });
});

describe('ewmaLimit', () => {
  // NIST/SEMATECH e-Handbook, 6.3.2.4, worked example: λ = 0.3, factor 3, SD 2.0539, limits 50 ± 2.5884. Printed to 4 digits.
  it('is that of the handbook’s example', () => {
    expect(50 + ewmaLimit({ lambda: 0.3, limit: 3 }) * 2.0539).toBeCloseTo(52.5884, 3);
    expect(ewmaLimit({ lambda: 1, limit: 3 })).toBe(3);
  });
});
