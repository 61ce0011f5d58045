/**
 * Middle value in the unit of `values`, the mean of the two middle ones of an even number; undefined for none.
 * @throws {RangeError} if a value is not finite.
 * @example median([3, 1, 2, 10]) // 2.5
 */
export function median(values: readonly number[]): number | undefined {
  requireFinite('median', values);
  if (values.length === 0) return undefined;
  const sorted = [...values].sort((first, second) => first - second);
  const upper = sorted[sorted.length >> 1] ?? Number.NaN;
  const lower = sorted[(sorted.length - 1) >> 1] ?? Number.NaN;
  // Half of each: the sum of two huge values is not finite.
  return lower === upper ? upper : lower / 2 + upper / 2;
}

/** 1 / Φ⁻¹(¾): makes the median absolute deviation of a normal sample estimate its SD. Source: Hampel, JASA 69 (1974), 383–393. */
export const madToSd = 1.482602218505602;

/**
 * SD as the middle deviation from the middle tells it, in the unit of `values`: median |x − median| · 1.4826. Undefined
 * for fewer than two values; 0 when more than half are equal. Up to half of the values may be anything without moving it far.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6.
 * @throws {RangeError} if a value is not finite.
 * @example robustSd([1, 2, 3, 4, 1000]) // 1.4826
 */
export function robustSd(values: readonly number[]): number | undefined {
  const middle = median(values);
  if (middle === undefined || values.length < 2) return undefined;
  const deviation = median(values.map((value) => Math.abs(value - middle)));
  return deviation === undefined ? undefined : deviation * madToSd;
}

/** Robust SDs from the middle beyond which a value is set aside for a look. Source: Iglewicz & Hoaglin, as in the NIST/SEMATECH e-Handbook, 1.3.5.17. */
const outlyingBeyond = 3.5;

/**
 * Which values of a baseline stand apart from the rest, as indices: |x − median| beyond 3.5 robust SD. Something to be
 * looked at by a supervisor, never to be left out by itself. None where the robust SD is 0 or unknown.
 * Source: Iglewicz & Hoaglin (1993), in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.
 * @throws {RangeError} if a value is not finite.
 * @example outlyingIndices([3.10, 3.12, 3.11, 3.09, 3.60]) // [4]
 */
export function outlyingIndices(values: readonly number[]): readonly number[] {
  const middle = median(values);
  const sd = robustSd(values);
  if (middle === undefined || sd === undefined || sd === 0) return [];
  return values.flatMap((value, index) => (Math.abs(value - middle) > outlyingBeyond * sd ? [index] : []));
}

function requireFinite(caller: string, values: readonly number[]): void {
  for (const [index, value] of values.entries()) {
    if (!Number.isFinite(value)) throw new RangeError(`${caller}: values[${index}] is ${value}`);
  }
}
