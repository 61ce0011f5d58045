/** The figures of a check of linearity: each gas, its full scale, and known dilutions of it with what was read. Pure. */
import { type Linearity, linearityCheck } from '../../core/index.ts';
import type { Linearity as WrittenLinearity } from '../../journal/entries.ts';
import { inField } from '../parts/figures.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import type { GasDraft, PointDraft } from './checkDraft.ts';
import { type FiguresRead, isBlank, neededMessage } from './readFigures.ts';

export interface PointErrors {
  expected?: string;
  read?: string;
}

export interface ReadGas {
  key: string;
  errors: {
    fullScale?: string;
    /** By the key of the point. */
    byPoint: ReadonlyMap<string, PointErrors>;
  };
  /** By the key of the point, how it comes out; empty while there is nothing to judge. */
  judgedPoints: ReadonlyMap<string, Linearity['points'][number]>;
  judged: Linearity | null;
  figures: WrittenLinearity | null;
  isUntouched: boolean;
}

export interface JudgedLinearity {
  gases: readonly ReadGas[];
  within: boolean;
}

const fullScaleSpecs: Record<GasDraft['unit'], NumberSpec> = {
  '%': { name: 'full scale', unit: '%', lowest: 0.01, highest: 100, example: '0.3' },
  ppm: { name: 'full scale', unit: 'ppm', lowest: 50, highest: 1_000_000, example: '3000' },
};

const tooFew = 'Two points at least make a line: type another below; five are common practice.';

/** Room beyond full scale, as a fraction of it: for what is expected, and for what a faulty analyzer reads. Common practice, no source. */
const beyond = { expected: 0.1, readAbove: 1, readBelow: 0.5 };

export function readLinearity(
  gases: readonly GasDraft[],
  limitFraction: number,
): FiguresRead<WrittenLinearity[], JudgedLinearity, null> & { gases: readonly ReadGas[] } {
  const read = gases.map((gas) => readGas(gas, limitFraction));
  const typed = read.filter(({ isUntouched }) => !isUntouched);
  const figures = typed.flatMap((gas) => (gas.figures === null ? [] : [gas.figures]));
  const isWhole = figures.length === typed.length;
  const results = typed.flatMap(({ judged }) => (judged === null ? [] : [judged]));
  return {
    gases: read,
    figures: isWhole && figures.length > 0 ? figures : null,
    judged: results.length === 0 ? null : { gases: read, within: results.every(({ within }) => within) },
    errors: null,
    isWhole,
  };
}

function readGas({ key, gas, unit, fullScale: text, points }: GasDraft, limitFraction: number): ReadGas {
  const nothing = { key, judgedPoints: new Map(), judged: null, figures: null };
  // Dilutions alone, as they are taken over from last time, are not a check.
  if (points.every(({ read }) => isBlank(read))) {
    return { ...nothing, errors: { byPoint: new Map() }, isUntouched: true };
  }
  const typed = points.filter(({ expected, read }) => !isBlank(expected) || !isBlank(read));
  const scale = readNumber(text, fullScaleSpecs[unit]);
  const scaleError = neededMessage(
    scale,
    `Type the full scale in ${unit}: deviations are counted in parts of it.`,
  );
  const full = scale.state === 'number' ? scale.value : null;
  const byPoint = new Map<string, PointErrors>();
  const whole: { key: string; expected: number; read: number }[] = [];
  for (const point of typed) {
    const result = readPoint(point, unit, full);
    if ('errors' in result) byPoint.set(point.key, result.errors);
    else whole.push({ key: point.key, ...result });
  }
  const [only, ...others] = typed;
  if (only !== undefined && others.length === 0)
    byPoint.set(only.key, { read: tooFew, ...byPoint.get(only.key) });
  const errors: ReadGas['errors'] = { byPoint, ...(scaleError && { fullScale: scaleError }) };
  if (full === null || whole.length < 2) return { ...nothing, errors, isUntouched: false };
  const judged = linearityCheck({ points: whole, fullScale: full, limitFraction });
  const judgedPoints = new Map(
    whole.flatMap((point, index) => {
      const one = judged.points[index];
      return one === undefined ? [] : [[point.key, one] as const];
    }),
  );
  const figures =
    byPoint.size > 0
      ? null
      : {
          gas,
          unit,
          fullScale: full,
          points: whole.map(({ expected, read }) => ({ expected, read })),
          limitFraction,
        };
  return { key, errors, judgedPoints, judged, figures, isUntouched: false };
}

function readPoint(
  { expected: expectedText, read: readText }: PointDraft,
  unit: GasDraft['unit'],
  fullScale: number | null,
): { expected: number; read: number } | { errors: PointErrors } {
  const widest = fullScale ?? fullScaleSpecs[unit].highest;
  const example = inField(Number((widest / 2).toPrecision(2)));
  const expected = readNumber(expectedText, {
    name: 'dilution',
    unit,
    lowest: 0,
    highest: rounded(widest * (1 + beyond.expected)),
    example,
  });
  const read = readNumber(readText, {
    name: 'reading',
    unit,
    lowest: -rounded(widest * beyond.readBelow),
    highest: rounded(widest * (1 + beyond.readAbove)),
    example,
  });
  if (expected.state === 'number' && read.state === 'number') {
    return { expected: expected.value, read: read.value };
  }
  const expectedError = neededMessage(expected, 'Type what the dilution holds.');
  const readError = neededMessage(read, 'Type what was read of it, or empty the dilution.');
  return {
    errors: { ...(expectedError && { expected: expectedError }), ...(readError && { read: readError }) },
  };
}

/** As it stands in a sentence: 0.33, and not 0.33000000000000002. */
const rounded = (value: number) => Number(value.toPrecision(6));
