import { describe, expect, it } from 'vitest';
import { checkDeviations } from '../../../src/views/report/checkDeviations.ts';

describe('checkDeviations', () => {
  it('gives none for a check of which only a word was noted', () => {
    expect(checkDeviations({ volume: null })).toEqual([]);
  });

  it('gives each reading of a volume check as a fraction of what was expected', () => {
    // By hand: 3.036 / 3.000 is 1.2 % high, 2.940 is 2 % low.
    const figures = checkDeviations({
      volume: { expectedL: 3, readL: [3.036, 2.94], limitFraction: 0.025 },
    });
    expect(figures.map(({ fraction }) => fraction)).toEqual([
      expect.closeTo(0.012, 12),
      expect.closeTo(-0.02, 12),
    ]);
    expect(figures.map(({ limitFraction }) => limitFraction)).toEqual([0.025, 0.025]);
  });

  it('gives linearity as a fraction of full scale, syringe and barometer of what they ought to be', () => {
    // By hand: 0.2985 % read for 0.3 % on a scale of 0.3 % is half a percent of it low; 3.012 L for 3 L is 0.4 % high;
    // 1003.2 hPa for 1000 hPa is 0.32 % high.
    const figures = checkDeviations({
      volume: null,
      linearity: [
        {
          gas: 'CO',
          unit: '%',
          fullScale: 0.3,
          points: [
            { expected: 0, read: 0 },
            { expected: 0.3, read: 0.2985 },
          ],
          limitFraction: 0.005,
        },
      ],
      syringe: { nominalL: 3, measuredL: 3.012, limitFraction: 0.005, certificate: '', issuedBy: '' },
      barometer: { unit: 'hPa', read: 1003.2, reference: 1000, limitFraction: 0.025 },
    });
    expect(figures.map(({ fraction }) => fraction)).toEqual([
      expect.closeTo(-0.005, 12),
      expect.closeTo(0.004, 12),
      expect.closeTo(0.0032, 12),
    ]);
  });
});
