/** NIST Statistical Reference Datasets (StRD), univariate summary statistics: certified mean and SD (divisor n − 1). */
export interface CertifiedDataset {
  name: string;
  values: readonly number[];
  mean: number;
  sd: number;
  /** Digits that double arithmetic can hold on to in SD: values near 1e7 are themselves only good to 1e-9. */
  sdDigits: number;
}

/**
 * Michelson's speed of light, 1000 km/s: the values as R 4.2.2 carries them, (morley$Speed + 299000)/1000. Certified values
 * from memory; R gives mean 299.8524, sd 0.0790105478190507 of the same.
 */
const michelson = [
  299.85, 299.74, 299.9, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.0, 299.98, 299.93,
  299.65, 299.76, 299.81, 300.0, 300.0, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.8, 299.85,
  299.88, 299.9, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.8, 299.79, 299.76, 299.8, 299.88,
  299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91, 299.85, 299.87,
  299.84, 299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.8, 299.77, 299.76,
  299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78,
  299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87, 299.87, 299.81,
  299.74, 299.81, 299.94, 299.95, 299.8, 299.81, 299.87,
];

/** The datasets NumAcc are defined by a rule: one middle value, then two neighbours in turn. */
const alternating = (middle: number, low: number, high: number): readonly number[] => [
  middle,
  ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? low : high)),
];

export const certifiedDatasets: readonly CertifiedDataset[] = [
  { name: 'Michelso', values: michelson, mean: 299.8524, sd: 0.0790105478190518, sdDigits: 12 },
  { name: 'NumAcc1', values: [10_000_001, 10_000_003, 10_000_002], mean: 10_000_002, sd: 1, sdDigits: 15 },
  { name: 'NumAcc2', values: alternating(1.2, 1.1, 1.3), mean: 1.2, sd: 0.1, sdDigits: 14 },
  {
    name: 'NumAcc3',
    values: alternating(1_000_000.2, 1_000_000.1, 1_000_000.3),
    mean: 1_000_000.2,
    sd: 0.1,
    sdDigits: 9,
  },
  {
    name: 'NumAcc4',
    values: alternating(10_000_000.2, 10_000_000.1, 10_000_000.3),
    mean: 10_000_000.2,
    sd: 0.1,
    sdDigits: 8,
  },
];
