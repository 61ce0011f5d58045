import { mean, sampleSd } from './statistics.ts';

/**
 * Sample standard deviation as a fraction of the mean; undefined for fewer than two values. For values that are above 0 by
 * their nature, such as a person's uptake: a mean near 0 would make any spread huge.
 * @throws {RangeError} if a value is not a finite positive number.
 * @example coefficientOfVariation([24, 25, 26]) // 0.04
 */
export function coefficientOfVariation(values: readonly number[]): number | undefined {
  for (const [index, value] of values.entries()) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`coefficientOfVariation: values[${index}] is ${value}, not a positive number`);
    }
  }
  const average = mean(values);
  const sd = sampleSd(values);
  return average === undefined || sd === undefined ? undefined : sd / average;
}
