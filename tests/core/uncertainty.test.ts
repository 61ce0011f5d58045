import { describe, expect, it } from 'vitest';
import {
  compareSpread,
  expectedSpread,
  type SimulatedVaInput,
  sampleSd,
  simulatedVa,
  uncertaintyBudget,
  usualHalfWidths,
} from '../../src/core/index.ts';
import { seededRandom } from '../../src/core/runLengthSimulation.ts';

const usual: SimulatedVaInput = Object.freeze({
  reportedVaL: 3.45,
  reportedAs: 'BTPS',
  ambient: Object.freeze({ temperatureC: 22, barometricMmHg: 760 }),
  conversion: Object.freeze({ kind: 'computed', assumed: 'ATPD' }),
  syringeDeadSpaceL: 0.11,
  analyzerDeadSpaceL: 0,
  inspiredVolumeL: 3,
});

describe('uncertaintyBudget', () => {
  const budget = uncertaintyBudget(usual);
  const part = (source: string) => budget.contributions.find((each) => each.source === source);

  it('has the contributions that derivatives by hand give', () => {
    // Ambient VA 3.0802 L, V = 3.45 · (P − 47)/P · T/310.15. dV/dT = V/T, dV/dP = V · 47/(P(P − 47)); each half-width/√3.
    const ambientL = 3.45 * (713 / 760) * (295.15 / 310.15);
    expect(part('syringe')?.standardL).toBeCloseTo(0.015 / Math.sqrt(3), 12);
    expect(part('temperature')?.standardL).toBeCloseTo(ambientL / 295.15 / Math.sqrt(3), 12);
    expect(part('pressure')?.standardL).toBeCloseTo((ambientL * 47 * 19) / (760 * 713) / Math.sqrt(3), 5);
    expect(part('dead-space')?.standardL).toBeCloseTo(0.01 / Math.sqrt(3), 12);
    expect(part('display')?.standardL).toBeCloseTo((0.005 * ambientL) / 3.45 / Math.sqrt(3), 12);
  });

  it('adds up to 13 mL standard and 25 mL expanded', () => {
    // √(8.66² + 6.03² + 2.93² + 5.77² + 2.58²) = 12.6, by hand from the parts above.
    expect(budget.standardL * 1000).toBeCloseTo(12.6, 1);
    expect(budget.expandedL).toBe(2 * budget.standardL);
    expect(budget.contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('agrees with a Monte Carlo propagation of the same sources to 2 %', () => {
    // JCGM 101:2008: draw every source from its rectangle and look at the spread of the result.
    const random = seededRandom(7);
    const draw = (halfWidth: number) => (2 * random() - 1) * halfWidth;
    const differences = Array.from({ length: 40_000 }, () => {
      const found = simulatedVa({
        ...usual,
        reportedVaL: 3.45 + draw(usualHalfWidths.displayStepL / 2),
        ambient: { temperatureC: 22 + draw(1), barometricMmHg: 760 * (1 + draw(0.025)) },
        syringeDeadSpaceL: 0.11 + draw(0.01),
      }).simulatedVaL;
      return found - 3 * (1 + draw(0.005));
    });
    // The SD of 40,000 draws is itself good to 0.4 %.
    expect(Math.abs((sampleSd(differences) ?? 0) / budget.standardL - 1)).toBeLessThan(0.02);
  });

  it('takes nothing from temperature and pressure under a fixed factor', () => {
    const fixed = uncertaintyBudget({ ...usual, conversion: { kind: 'fixed', factor: 0.91 } });
    for (const source of ['temperature', 'pressure']) {
      expect(fixed.contributions.find((each) => each.source === source)?.standardL).toBe(0);
    }
    expect(fixed.standardL).toBeLessThan(budget.standardL);
  });

  it('is 0 where nothing is uncertain, also with no dead space to lower', () => {
    const none = { syringeFraction: 0, temperatureC: 0, pressureFraction: 0, deadSpaceL: 0, displayStepL: 0 };
    expect(uncertaintyBudget(usual, none)).toMatchObject({ standardL: 0, expandedL: 0 });
    expect(uncertaintyBudget({ ...usual, syringeDeadSpaceL: 0 }).standardL).toBeCloseTo(budget.standardL, 12);
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a half-width of %d', (deadSpaceL) => {
    expect(() => uncertaintyBudget(usual, { ...usualHalfWidths, deadSpaceL })).toThrow(
      /halfWidths.deadSpaceL is/,
    );
  });
});

describe('compareSpread', () => {
  const budget = uncertaintyBudget(usual);

  it('takes the published 36 mL of a well-kept analyzer for what is expected', () => {
    expect(compareSpread({ sdL: 0.036, n: 52 }, budget).judgement).toBe('as-expected');
  });
  it('takes values that hardly differ for copied or rounded', () => {
    expect(compareSpread({ sdL: 0.0005, n: 20 }, budget).judgement).toBe('smaller-than-possible');
    expect(compareSpread({ sdL: 0, n: 20 }, budget).judgement).toBe('smaller-than-possible');
  });
  it('takes a wide spread for technique or a fault', () => {
    expect(compareSpread({ sdL: 0.2, n: 20 }, budget).judgement).toBe('larger-than-expected');
  });
  it('says nothing from fewer than ten runs, nor of a spread that only might be small', () => {
    expect(compareSpread({ sdL: 0.0005, n: 9 }, budget)).toEqual({
      judgement: 'too-few-runs',
      interval: null,
    });
    expect(compareSpread({ sdL: 0.003, n: 10 }, budget).judgement).toBe('as-expected');
  });
  it('expects from a quarter of the budget to five times it, and not less than the display step makes', () => {
    // 12.6 mL standard, from the parts by hand: 3.2 and 63 mL.
    const { leastL, mostL } = expectedSpread(budget);
    expect(leastL * 1000).toBeCloseTo(3.16, 1);
    expect(mostL * 1000).toBeCloseTo(63.2, 0);
    // A step of 0.1 L: half of it over √3, 28.9 mL in BTPS, is most of this budget.
    const coarse = uncertaintyBudget(usual, { ...usualHalfWidths, displayStepL: 0.1 });
    const display = coarse.contributions.find(({ source }) => source === 'display');
    expect(expectedSpread(coarse).leastL).toBe(display?.standardL);
  });
  it('refuses what cannot be', () => {
    expect(() => compareSpread({ sdL: -1, n: 20 }, budget)).toThrow(/sdL is -1 L/);
    expect(() => compareSpread({ sdL: 0.03, n: 1.5 }, budget)).toThrow(/n is 1.5 runs/);
  });
});
