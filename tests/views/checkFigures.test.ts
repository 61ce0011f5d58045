import { describe, expect, it } from 'vitest';
import { figuresInWords } from '../../src/views/checkFigures.ts';

/** A reading is kept on one line by spaces that do not break. */
const inPlainSpaces = (figures: Parameters<typeof figuresInWords>[0]) =>
  figuresInWords(figures).map((sentence) => sentence.replaceAll('\u00a0', ' '));

describe('the figures of a noted check in words', () => {
  it('are none where only a word was noted', () => {
    expect(figuresInWords({ volume: null })).toEqual([]);
  });

  // Percentages by hand: 3.02/3 − 1, 2.99/3 − 1.
  it('of a volume calibration check, with and without its flows', () => {
    const volume = { expectedL: 3, readL: [3.02, 2.99], limitFraction: 0.025 };
    expect(inPlainSpaces({ volume })).toEqual(['3.02 L (+0.7 %), 2.99 L (−0.3 %) of 3.00 L']);
    expect(inPlainSpaces({ volume: { ...volume, flowLPerS: [0.5, 6] } })).toEqual([
      '3.02 L (+0.7 %) at 0.5 L/s, 2.99 L (−0.3 %) at 6 L/s, of 3.00 L',
    ]);
  });

  it('of linearity, a sentence for each gas', () => {
    const points = [
      { expected: 0, read: 0 },
      { expected: 1500, read: 1512 },
      { expected: 3000, read: 2994 },
    ];
    expect(
      figuresInWords({
        volume: null,
        linearity: [
          { gas: 'CO', unit: 'ppm', fullScale: 3000, points, limitFraction: 0.005 },
          { gas: 'CH4', unit: 'ppm', fullScale: 3000, points: points.slice(1), limitFraction: 0.0025 },
        ],
      }),
    ).toEqual([
      'CO: +0.40 % of full scale (3000 ppm) at the most, at 1500 ppm; 3 points, limit ±0.5 %',
      'CH₄: +0.40 % of full scale (3000 ppm) at the most, at 1500 ppm; 2 points, limit ±0.25 %',
    ]);
  });

  it('of a syringe’s certificate and of a barometer', () => {
    const syringe = { nominalL: 3, measuredL: 3.012, limitFraction: 0.005, certificate: '', issuedBy: '' };
    expect(figuresInWords({ volume: null, syringe })).toEqual(['3.012 L, +0.40 % of 3.00 L']);
    expect(
      figuresInWords({
        volume: null,
        syringe: { ...syringe, certificate: '71-204', issuedBy: 'An institute' },
      }),
    ).toEqual(['3.012 L, +0.40 % of 3.00 L; certificate 71-204, An institute']);
    expect(
      figuresInWords({
        volume: null,
        barometer: { unit: 'hPa', read: 990, reference: 1000, limitFraction: 0.025 },
      }),
    ).toEqual(['990 hPa read, 1000 hPa by the reference: −1.0 %']);
  });
});
