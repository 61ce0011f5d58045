/** What is looked at before a baseline is accepted: neighbours, normality, and how well mean and spread are known. */
import { describe, expect, it } from 'vitest';
import {
  autocorrelationByChance,
  lagOneAutocorrelation,
  meanConfidenceInterval,
  sdRatio,
  shapiroFrancia,
} from '../../src/core/index.ts';
import { certifiedDatasets } from '../reference/strd.ts';

/** R's `sleep`: extra hours of sleep of ten patients under two drugs (Student, 1908). */
const sleep = Object.freeze([
  0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0, 1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4,
]);
/** R's `lh`: a hormone at ten-minute intervals (Diggle, 1990). */
const lh = Object.freeze([
  2.4, 2.4, 2.4, 2.2, 2.1, 1.5, 2.3, 2.3, 2.5, 2.0, 1.9, 1.7, 2.2, 1.8, 3.2, 3.2, 2.7, 2.2, 2.2, 1.9, 1.9,
  1.8, 2.7, 3.0, 2.3, 2.0, 2.0, 2.9, 2.9, 2.7, 2.7, 2.3, 2.6, 2.4, 1.8, 1.7, 1.5, 1.4, 2.1, 3.3, 3.5, 3.5,
  3.1, 2.6, 2.1, 3.4, 3.0, 2.9,
]);
/** R's `trees`: timber volume of 31 cherry trees, skewed to the right. */
const timber = Object.freeze([
  10.3, 10.3, 10.2, 16.4, 18.8, 19.7, 15.6, 18.2, 22.6, 19.9, 24.2, 21.0, 21.4, 21.3, 19.1, 22.2, 33.8, 27.4,
  25.7, 24.9, 34.5, 31.7, 36.3, 38.3, 42.6, 55.4, 55.7, 58.3, 51.5, 51.0, 77.0,
]);

describe('lagOneAutocorrelation', () => {
  // NIST StRD certifies it beside mean and SD (recalled); R 4.2.2, acf(), gives the same of Michelso and NumAcc1.
  it.each([
    ['Michelso', 0.535199668621283, 12],
    ['NumAcc1', -0.5, 15],
    ['NumAcc2', -0.999, 12],
    ['NumAcc3', -0.999, 8],
    // The values themselves are good to 1e-9 only.
    ['NumAcc4', -0.999, 7],
  ] as const)('is the certified one of %s', (name, certified, digits) => {
    const values = certifiedDatasets.find((one) => one.name === name)?.values ?? [];
    expect(lagOneAutocorrelation(values)).toBeCloseTo(certified, digits);
  });

  it('agrees with R on values that hang together', () => {
    // R 4.2.2: acf(lh, plot = FALSE)$acf[2]; the same of sleep$extra[1:10].
    expect(lagOneAutocorrelation(lh)).toBeCloseTo(0.575524475524, 11);
    expect(lagOneAutocorrelation(sleep.slice(0, 10))).toBeCloseTo(0.367904877625, 11);
  });

  it('does not change with scale and origin', () => {
    expect(lagOneAutocorrelation(lh.map((value) => 3000 - 40 * value))).toBeCloseTo(0.575524475524, 9);
  });

  it('is undefined of fewer than three values and where all are equal, and refuses what is no number', () => {
    expect(lagOneAutocorrelation([])).toBeUndefined();
    expect(lagOneAutocorrelation([1, 2])).toBeUndefined();
    expect(lagOneAutocorrelation([3, 3, 3])).toBeUndefined();
    expect(() => lagOneAutocorrelation([1, Number.NaN, 2])).toThrow(/values\[1\] is NaN/);
    expect(() => lagOneAutocorrelation([Number.POSITIVE_INFINITY])).toThrow(RangeError);
  });
});

describe('autocorrelationByChance', () => {
  it('is two standard errors: 1.96/√n', () => {
    // 1.959964 (any normal table) over 4.472136.
    expect(autocorrelationByChance(20)).toBeCloseTo(0.438261, 6);
  });

  it.each([2, 2.5, Number.NaN])('refuses n = %d', (n) => {
    expect(() => autocorrelationByChance(n)).toThrow(/n is .* values/);
  });
});

describe('shapiroFrancia', () => {
  // R 4.2.2: cor(sort(x), qnorm(ppoints(n, a = 3/8)))^2
  it.each([
    ['sleep', sleep, 0.954783789024],
    ['five runs with one far off', [3.1, 3.12, 3.11, 3.09, 3.6], 0.580682723723],
    ['timber', timber, 0.888607452909],
    ['lh', lh, 0.978785066579],
  ] as const)('has the W′ of R for %s', (_name, values, w) => {
    expect(shapiroFrancia(values)?.w).toBeCloseTo(w, 11);
  });

  // R 4.2.2, set.seed(1): the share of 60,000 to 150,000 normal samples of that size with a lower W′. Its standard error is
  // 0.002 or less; the published approximation allows itself some thousandths more.
  it.each([
    ['sleep', sleep, 0.376],
    ['timber', timber, 0.0059],
    ['lh', lh, 0.4509],
  ] as const)('has the p of simulation for %s', (_name, values, p) => {
    expect(Math.abs((shapiroFrancia(values)?.p ?? 1) - p)).toBeLessThan(0.01);
  });

  it('is an approximation for five values: 0.0026 where simulation gives 0.0004', () => {
    // R 4.2.2, set.seed(1): 200,000 normal samples of five.
    expect(shapiroFrancia([3.1, 3.12, 3.11, 3.09, 3.6])?.p.toFixed(4)).toBe('0.0026');
  });

  it('finds five in a hundred normal samples of twenty unlikely, as it says', () => {
    const uniform = seededUniform(20_170_103);
    let unlikely = 0;
    for (let sample = 0; sample < 4000; sample += 1) {
      const values = Array.from({ length: 20 }, () => normalDraw(uniform));
      if ((shapiroFrancia(values)?.p ?? 1) < 0.05) unlikely += 1;
    }
    // Four standard errors of 0.0034, and what the approximation allows itself.
    expect(Math.abs(unlikely / 4000 - 0.05)).toBeLessThan(0.02);
  });

  it('does not ask in which order, unit or sign the values come', () => {
    const { w = 0 } = shapiroFrancia(timber) ?? {};
    expect(shapiroFrancia(timber.toReversed())?.w).toBeCloseTo(w, 12);
    expect(shapiroFrancia(timber.map((value) => 3000 - 2 * value))?.w).toBeCloseTo(w, 12);
  });

  it('is undefined of fewer than five values and where all are equal, and refuses what is no number', () => {
    expect(shapiroFrancia([1, 2, 3, 4])).toBeUndefined();
    expect(shapiroFrancia([3, 3, 3, 3, 3])).toBeUndefined();
    expect(() => shapiroFrancia([1, 2, 3, 4, Number.NaN])).toThrow(/values\[4\] is NaN/);
  });
});

describe('meanConfidenceInterval', () => {
  it('is the one printed in the handbook', () => {
    // NIST/SEMATECH e-Handbook 1.3.5.2, ZARR13.DAT: mean 9.261460, SD 0.022789, N 195: 9.258242 to 9.264679 (recalled).
    const { lower, upper } = meanConfidenceInterval(9.26146, 0.022789, 195);
    expect(lower).toBeCloseTo(9.258242, 5);
    expect(upper).toBeCloseTo(9.264679, 5);
  });

  it('agrees with R', () => {
    // R 4.2.2: t.test(sleep$extra[1:10])$conf.int
    const { lower, upper } = meanConfidenceInterval(0.75, 1.78900965776, 10);
    expect(lower).toBeCloseTo(-0.529780413526, 9);
    expect(upper).toBeCloseTo(2.029780413526, 9);
  });

  it.each([
    [Number.NaN, 1, 20, 0.95, /mean is NaN/],
    [3, -1, 20, 0.95, /sd is -1/],
    [3, 1, 1, 0.95, /n is 1 runs/],
    [3, 1, 20, 1, /confidence is 1/],
  ])('refuses mean %d, sd %d, n %d, confidence %d', (mean, sd, n, confidence, message) => {
    expect(() => meanConfidenceInterval(mean, sd, n, confidence)).toThrow(message);
  });
});

describe('sdRatio', () => {
  it('agrees with R', () => {
    // R 4.2.2: var.test(extra ~ group, data = sleep); of its interval the square roots.
    const found = sdRatio({ sd: 1.78900965776, n: 10 }, { sd: 2.0022487358, n: 10 });
    expect(found.ratio ** 2).toBeCloseTo(0.798342617998, 9);
    expect(found.p).toBeCloseTo(0.742719931726, 9);
    expect(found.lower).toBeCloseTo(0.445305528273, 9);
    expect(found.upper).toBeCloseTo(1.792797455478, 9);
    // R 4.2.2: 0.7 / sqrt(qf(c(.975, .025), 7, 39)), 2 * pf(0.49, 7, 39)
    const uneven = sdRatio({ sd: 0.7, n: 8 }, { sd: 1, n: 40 });
    expect(uneven.lower).toBeCloseTo(0.431392976353, 9);
    expect(uneven.upper).toBeCloseTo(1.453747854526, 9);
    expect(uneven.p).toBeCloseTo(0.328047936234, 9);
  });

  it('has the critical values printed in the handbook', () => {
    // NIST/SEMATECH e-Handbook 1.3.5.9: F of 239 and 239 degrees, two-sided 0.05: 0.7756 and 1.2894 (recalled).
    const { lower, upper } = sdRatio({ sd: 1, n: 240 }, { sd: 1, n: 240 });
    expect(1 / lower ** 2).toBeCloseTo(1.2894, 4);
    expect(1 / upper ** 2).toBeCloseTo(0.7756, 4);
  });

  it('turns round with its arguments', () => {
    const one = sdRatio({ sd: 0.036, n: 20 }, { sd: 0.024, n: 30 });
    const other = sdRatio({ sd: 0.024, n: 30 }, { sd: 0.036, n: 20 });
    expect(other.ratio).toBeCloseTo(1 / one.ratio, 12);
    expect(other.lower).toBeCloseTo(1 / one.upper, 10);
    expect(other.p).toBeCloseTo(one.p, 10);
  });

  it('holds for two values against two and for hundreds', () => {
    // R 4.2.2: qf(.975, 1, 1) = 647.7890114778, qf(.975, 1, 499) = 5.0543444694
    expect(sdRatio({ sd: 1, n: 2 }, { sd: 1, n: 2 }).lower ** -2).toBeCloseTo(647.7890114778, 6);
    expect(sdRatio({ sd: 1, n: 2 }, { sd: 1, n: 500 }).lower ** -2).toBeCloseTo(5.0543444694, 8);
  });

  it('refuses what is no sample', () => {
    const good = { sd: 1, n: 20 };
    expect(() => sdRatio({ sd: 0, n: 20 }, good)).toThrow(/first\.sd is 0/);
    expect(() => sdRatio(good, { sd: 1, n: 1 })).toThrow(/second\.n is 1 values/);
    expect(() => sdRatio(good, good, 0)).toThrow(/confidence is 0/);
  });
});

/** Numbers between 0 and 1 that are the same in every run: Marsaglia's xorshift32, Journal of Statistical Software 8 (2003). */
function seededUniform(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 2 ** 32;
  };
}

/** Box and Muller's transformation. */
const normalDraw = (uniform: () => number) =>
  Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
