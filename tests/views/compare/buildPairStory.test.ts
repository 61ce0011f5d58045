import { describe, expect, it } from 'vitest';
import type { RouteDifference } from '../../../src/core/index.ts';
import {
  differenceSentence,
  noPartnerSentence,
  offsetSentence,
  summarize,
} from '../../../src/views/compare/buildPairStory.ts';
import { differenceScale } from '../../../src/views/compare/differenceScale.ts';

const va = differenceScale('va', 'mL/min/mmHg');
const dlco = differenceScale('dlco', 'mL/min/mmHg');

const judged = (value: number, mean: number, sd: number): RouteDifference => ({
  value,
  n: 14,
  mean,
  sd,
  z: (value - mean) / sd,
  accepted: true,
});
const notJudged = (value: number, n: number): RouteDifference => ({
  value,
  n,
  mean: null,
  sd: null,
  z: null,
  accepted: true,
});

describe('differenceSentence', () => {
  it('says how far apart, how far usually, and that the routes have parted beyond 3 SD', () => {
    expect(differenceSentence(judged(0.042, 0.012, 0.009), va)).toBe(
      'Simulated VA: the patient test reads 42 mL above the built-in routine; usually 12.0 ± 9.0 mL: z +3.3. The routes have parted.',
    );
  });

  it('names the usual side where it is the other one', () => {
    expect(differenceSentence(judged(-0.03, 0.012, 0.015), va)).toBe(
      'Simulated VA: the patient test reads 30 mL below the built-in routine; usually 12 ± 15 mL above it: z −2.8. Unusual, and not yet beyond 3 SD.',
    );
  });

  it.each([
    [3, 'As usual.', 2],
    [3.01, 'Unusual', 2.01],
    [4, 'Unusual', 3],
    [4.01, 'have parted', 3.01],
  ])('at %d SD above a usual 1 SD: %s', (inSd, expected) => {
    expect(differenceSentence(judged(inSd * 0.25, 0.25, 0.25), va)).toContain(expected);
  });

  it('writes DLCO in its unit, and no side where the difference rounds to nothing', () => {
    expect(differenceSentence(judged(0.004, -0.002, 0.05), dlco)).toBe(
      'DLCO: the patient test reads the same as the built-in routine; usually 0.002 ± 0.050 mL/min/mmHg: z +0.1. As usual.',
    );
  });

  it('writes DLCO in mmol/min/kPa with three decimals', () => {
    // By the factor of the 2017 ERS/ATS standard: 0.2987 mL/min/mmHg is 0.100 mmol/min/kPa.
    expect(differenceSentence(judged(0.2987, 0, 0.1), differenceScale('dlco', 'mmol/min/kPa'))).toContain(
      'reads 0.100 mmol/min/kPa above the built-in routine',
    );
  });

  it.each([
    [0, 'No pair before it counts; what is usual is known from 10 pairs on.'],
    [1, '1 pair before it counts; what is usual is known from 10 pairs on.'],
    [9, '9 pairs before it count; what is usual is known from 10 pairs on.'],
    [12, 'The 12 pairs before it all differ by the same amount'],
  ])('says why nothing is usual yet after %d pairs', (n, expected) => {
    expect(differenceSentence(notJudged(0.02, n), va)).toContain(expected);
  });
});

describe('summarize', () => {
  const usual = judged(0.01, 0.01, 0.01);
  const unusual = judged(0.035, 0.01, 0.01);
  const parted = judged(0.05, 0.01, 0.01);

  it('names the quantity that has parted, and what it points to', () => {
    const { tone, title, advice } = summarize({ va: parted, dlco: unusual });
    expect([tone, title]).toEqual(['warn', 'The routes have parted in VA.']);
    // The row of the project's own table from pattern to cause.
    expect(advice).toContain('a setting or a part that only one route uses');
    expect(advice).toContain('side by side');
    expect(summarize({ va: parted, dlco: parted }).title).toBe('The routes have parted in VA and DLCO.');
  });

  it('says less of what is merely unusual, and nothing is to be done as usual', () => {
    expect(summarize({ va: usual, dlco: unusual }).title).toBe('The difference in DLCO is unusual.');
    expect(summarize({ va: usual, dlco: usual })).toEqual({
      tone: 'pass',
      title: 'The routes lie as far apart as usual in VA and DLCO.',
      advice: '',
    });
  });

  it('does not call usual what is not known', () => {
    expect(summarize({ va: notJudged(0.01, 3), dlco: notJudged(0, 3) }).tone).toBe('quiet');
    expect(summarize({ va: usual, dlco: notJudged(0, 12) }).title).toBe(
      'The routes lie as far apart as usual in VA.',
    );
  });
});

describe('offsetSentence', () => {
  it('tells a standing offset from none by whether the interval holds 0', () => {
    expect(offsetSentence({ n: 14, mean: 0.012, interval: { lower: 0.007, upper: 0.017 } }, va)).toBe(
      'Simulated VA: over 14 pairs the patient test reads 12 mL above the built-in routine on average (95 % interval +7 to +17 mL). The routes have a standing offset.',
    );
    expect(offsetSentence({ n: 14, mean: -0.012, interval: { lower: -0.027, upper: 0.003 } }, va)).toBe(
      'Simulated VA: over 14 pairs the patient test reads 12 mL below the built-in routine on average (95 % interval −27 to +3 mL). No standing offset: 0 lies within.',
    );
    expect(offsetSentence({ n: 14, mean: -0.012, interval: { lower: -0.02, upper: -0.004 } }, va)).toContain(
      'have a standing offset',
    );
  });

  it('says what is missing with one pair, none, and all equal', () => {
    expect(offsetSentence({ n: 1, mean: 0.01, interval: null }, va)).toBe(
      'Simulated VA: in the one pair that counts the patient test reads 10 mL above the built-in routine; an interval needs more.',
    );
    expect(offsetSentence(null, dlco)).toBe('DLCO: no pair of accepted runs yet.');
    expect(offsetSentence({ n: 12, mean: 0, interval: null }, dlco)).toBe(
      'DLCO: in all 12 pairs the patient test reads the same as the built-in routine.',
    );
  });
});

describe('noPartnerSentence', () => {
  it.each([
    [0, 0, 'Every day with a run has both routes.'],
    [1, 0, 'No partner: 1 day with the patient test alone.'],
    [0, 2, 'No partner: 2 days with the built-in routine alone.'],
    [3, 2, 'No partner: 5 days, 3 with the patient test alone and 2 with the built-in routine alone.'],
  ])('of %d and %d days', (patientTest, builtIn, expected) => {
    expect(noPartnerSentence({ 'patient-test': patientTest, 'built-in': builtIn })).toBe(expected);
  });
});
