import { sdConfidenceInterval } from './sdInterval.ts';
import { type SimulatedVaInput, simulatedVa } from './syringe.ts';

/** What one source of uncertainty is known to: plus or minus this much, any value within as likely as another. */
export interface UncertaintyHalfWidths {
  /** Of the syringe's stroke, as a fraction. */
  syringeFraction: number;
  temperatureC: number;
  /** Of the pressure, as a fraction. */
  pressureFraction: number;
  deadSpaceL: number;
  /** The smallest step of the displayed VA, in litres: half of it on either side is unknown. */
  displayStepL: number;
}

/**
 * Syringe ±0.5 %: ATS Pulmonary Function Laboratory Management and Procedure Manual, 3rd edition. Barometer ±2.5 %: ERS/ATS
 * 2017. Temperature ±1 °C and dead space ±10 mL: common practice, no source. Display: a VA in hundredths of a litre.
 */
export const usualHalfWidths: UncertaintyHalfWidths = {
  syringeFraction: 0.005,
  temperatureC: 1,
  pressureFraction: 0.025,
  deadSpaceL: 0.01,
  displayStepL: 0.01,
};

export type UncertaintySource = 'syringe' | 'temperature' | 'pressure' | 'dead-space' | 'display';

export interface UncertaintyContribution {
  source: UncertaintySource;
  /** Half-width of the source in its own unit: L, °C, mmHg. */
  halfWidth: number;
  /** Change of simulated VA for one unit of the source. */
  sensitivity: number;
  /** What it adds to the standard uncertainty of simulated VA, in litres. */
  standardL: number;
  /** Its share of the variance, 0 … 1. */
  share: number;
}

export interface UncertaintyBudget {
  contributions: readonly UncertaintyContribution[];
  /** Combined standard uncertainty of simulated VA against its target, in litres. */
  standardL: number;
  /** Twice that (k = 2), about 95 %. */
  expandedL: number;
}

/**
 * How well the difference of a simulated VA from its target is known, source by source.
 * First-order propagation; sensitivities by central differences over the half-width itself, which also takes in what
 * little curvature there is. Every source is rectangular: half-width/√3. The syringe moves the target, not the reading, by its
 * stroke times its fraction; under a fixed factor temperature and pressure contribute nothing, and what the constant is
 * wrong by is not in the budget.
 * Source: JCGM 100:2008 (GUM), 5.1.2 and 4.3.7.
 * @throws {RangeError} if a half-width is negative or not finite, or as `simulatedVa` does.
 * @example 3.45 L BTPS at 22 °C and 760 mmHg: standard 13 mL, expanded 25 mL, two thirds of the variance from syringe and temperature
 */
export function uncertaintyBudget(
  input: SimulatedVaInput,
  halfWidths: UncertaintyHalfWidths = usualHalfWidths,
): UncertaintyBudget {
  for (const [name, value] of Object.entries(halfWidths)) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`uncertaintyBudget: halfWidths.${name} is ${value}`);
    }
  }
  const { ambient, reportedVaL, inspiredVolumeL } = input;
  const { temperatureC, barometricMmHg } = ambient;
  const withAmbient = (change: Partial<typeof ambient>) => ({ ...input, ambient: { ...ambient, ...change } });
  const entries: readonly (readonly [UncertaintySource, number, (by: number) => number])[] = [
    // The reading stays; the target it is held against is off by as much as the syringe delivers more.
    ['syringe', inspiredVolumeL * halfWidths.syringeFraction, (by) => -by],
    ['temperature', halfWidths.temperatureC, (by) => vaL(withAmbient({ temperatureC: temperatureC + by }))],
    [
      'pressure',
      barometricMmHg * halfWidths.pressureFraction,
      (by) => vaL(withAmbient({ barometricMmHg: barometricMmHg + by })),
    ],
    // Taken off after everything else: linear, and a dead space of less than its half-width cannot be lowered by it.
    ['dead-space', halfWidths.deadSpaceL, (by) => vaL(input) - by],
    ['display', halfWidths.displayStepL / 2, (by) => vaL({ ...input, reportedVaL: reportedVaL + by })],
  ];
  const parts = entries.map(([source, halfWidth, valueAt]) => {
    const sensitivity = halfWidth === 0 ? 0 : (valueAt(halfWidth) - valueAt(-halfWidth)) / (2 * halfWidth);
    return { source, halfWidth, sensitivity, standardL: (Math.abs(sensitivity) * halfWidth) / Math.sqrt(3) };
  });
  const variance = parts.reduce((sum, { standardL }) => sum + standardL * standardL, 0);
  const contributions = parts.map((part) => ({
    ...part,
    share: variance === 0 ? 0 : (part.standardL * part.standardL) / variance,
  }));
  return { contributions, standardL: Math.sqrt(variance), expandedL: 2 * Math.sqrt(variance) };
}

function vaL(input: SimulatedVaInput): number {
  return simulatedVa(input).simulatedVaL;
}

export type SpreadJudgement =
  | 'smaller-than-possible'
  | 'as-expected'
  | 'larger-than-expected'
  | 'too-few-runs';

export interface SpreadComparison {
  judgement: SpreadJudgement;
  /** 95 % interval of the true SD, in litres; null for too few runs. */
  interval: { lower: number; upper: number } | null;
}

/** Runs below which an SD says too little to be compared. */
const fewestRuns = 10;

/** What part of the budget an SD must come to, and how many times the budget it may be before technique or a fault is asked about: common practice, no source. */
const expectedFrom = 1 / 4;
const expectedUpTo = 5;

/**
 * Between what SDs, in litres, an analyzer's own runs are expected to scatter: not less than what the display step alone makes of
 * honest readings, nor than a quarter of the budget; not more than five times the budget. Both are this project's own choice.
 */
export function expectedSpread({ contributions, standardL }: UncertaintyBudget): {
  leastL: number;
  mostL: number;
} {
  const displayL = contributions.find(({ source }) => source === 'display')?.standardL ?? 0;
  return { leastL: Math.max(displayL, expectedFrom * standardL), mostL: expectedUpTo * standardL };
}

/**
 * Holds the SD of an analyzer's own runs against the budget. `smaller-than-possible`: even the upper end of its interval is
 * below what the display step alone makes of honest readings, or below a quarter of the budget: values may be copied or
 * rounded. `larger-than-expected`: even the lower end is above five times the budget: technique, or a fault.
 * Parts of the budget that are the same every week (the syringe) do not scatter, hence the wide margins; both are this
 * project's own choice.
 * @throws {RangeError} if the SD is negative or not finite, or n is not a whole number.
 */
export function compareSpread(
  observed: { sdL: number; n: number },
  budget: UncertaintyBudget,
): SpreadComparison {
  const { sdL, n } = observed;
  if (!(sdL >= 0 && sdL < Number.POSITIVE_INFINITY)) throw new RangeError(`compareSpread: sdL is ${sdL} L`);
  if (!Number.isSafeInteger(n) || n < 0)
    throw new RangeError(`compareSpread: n is ${n} runs, not a whole number`);
  if (n < fewestRuns) return { judgement: 'too-few-runs', interval: null };
  const interval = sdConfidenceInterval(sdL, n);
  const { leastL, mostL } = expectedSpread(budget);
  if (interval.upper < leastL) return { judgement: 'smaller-than-possible', interval };
  if (interval.lower > mostL) return { judgement: 'larger-than-expected', interval };
  return { judgement: 'as-expected', interval };
}
