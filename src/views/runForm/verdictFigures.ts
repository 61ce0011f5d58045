/** The numbers behind a verdict, one below the other: each with its unit and what it means. Pure. */
import {
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type PointEvaluation,
  publishedDlcoLimit,
  type RunAssessment,
  type RunNumbers,
  type SimulationRun,
  type UncertaintyBudget,
  type UncertaintySource,
  uncertaintyBudget,
} from '../../core/index.ts';
import {
  dlcoMean,
  dlcoSd,
  dlcoTyped,
  factor,
  litres,
  litresSd,
  millilitres,
  percent,
  plain,
  signedMillilitres,
  signedPercent,
  zInTable,
} from '../parts/figures.ts';
import { conversionWords, disagreementSentence } from '../parts/words.ts';
import type { OwnLimitsPolicy } from './buildVerdictPage.ts';

export interface FigureRow {
  name: string;
  value: string;
  unit: string;
  note: string;
}

type FiguredRun = Pick<
  SimulationRun,
  'reading' | 'conversion' | 'limits' | 'ambient' | 'syringe' | 'analyzerDeadSpaceL'
>;

export function verdictFigures(
  run: FiguredRun,
  assessment: RunAssessment,
  policy: OwnLimitsPolicy,
): readonly FigureRow[] {
  const { numbers } = assessment;
  return [
    {
      name: 'Conversion factor',
      value: factor(numbers.factor),
      unit: '',
      note:
        run.reading.vaReportedAs === 'BTPS'
          ? conversionWords(run.conversion)
          : `from ${run.reading.vaReportedAs}`,
    },
    {
      name: 'Ambient VA',
      value: litres(numbers.ambientVaL),
      unit: 'L',
      note: 'at the room’s conditions, dry',
    },
    {
      name: 'Dead space taken off',
      value: millilitres(numbers.deadSpaceTakenOffL * 1000),
      unit: 'mL',
      note: 'syringe and what is attached to it',
    },
    {
      name: 'Simulated VA',
      value: litres(numbers.simulatedVaL),
      unit: 'L',
      note: `${signedMillilitres(numbers.vaOffTargetMl)} mL from ${plain(numbers.targetVaL)} L`,
    },
    ...uncertaintyRow(run, numbers),
    { name: 'VA against own runs', ...ownLimits(assessment.va, policy, vaFigures) },
    {
      name: 'VA published limit',
      value: `±${millilitres(run.limits.vaToleranceL * 1000)}`,
      unit: 'mL',
      note: numbers.vaWithinPublished ? 'inside' : 'outside',
    },
    {
      name: 'DLCO',
      value: dlcoTyped(run.reading.dlco, run.reading.dlcoUnit),
      unit: run.reading.dlcoUnit,
      note: disagreementNote(numbers),
    },
    {
      name: 'DLCO against own runs',
      ...ownLimits(assessment.dlco, policy, dlcoFigures(run.reading.dlcoUnit)),
    },
    {
      name: 'DLCO published limit',
      value: `< ${plain(publishedDlcoLimit(run.reading.dlcoUnit, run.limits))}`,
      unit: run.reading.dlcoUnit,
      note: numbers.dlcoWithinPublished ? 'below' : 'not below',
    },
    ...volumeCheckRow(assessment),
  ];
}

const sourceWords: Record<UncertaintySource, string> = {
  syringe: 'the syringe',
  temperature: 'temperature',
  pressure: 'pressure',
  'dead-space': 'dead space',
  display: 'the display',
};

function uncertaintyRow(run: FiguredRun, numbers: RunNumbers): FigureRow[] {
  const { expandedL, standardL, contributions } = budgetOf(run, numbers);
  const [most, next] = contributions.toSorted((one, other) => other.share - one.share);
  const share = (part: UncertaintyBudget['contributions'][number] | undefined) =>
    part === undefined ? '' : `${percent(part.share, 0)} % from ${sourceWords[part.source]}`;
  return [
    {
      name: 'Its uncertainty',
      value: `±${millilitres(expandedL * 1000)}`,
      unit: 'mL',
      note: `k = 2, about 95 %; standard ${millilitres(standardL * 1000)} mL, ${share(most)}, ${share(next)}`,
    },
  ];
}

function budgetOf(run: FiguredRun, { inspiredVolumeL }: RunNumbers): UncertaintyBudget {
  return uncertaintyBudget({
    reportedVaL: run.reading.vaL,
    reportedAs: run.reading.vaReportedAs,
    ambient: run.ambient,
    conversion: run.conversion,
    syringeDeadSpaceL: run.syringe.deadSpaceL,
    analyzerDeadSpaceL: run.analyzerDeadSpaceL,
    inspiredVolumeL,
  });
}

interface SeriesFigures {
  unit: string;
  mean: (value: number) => string;
  sd: (value: number) => string;
}

const vaFigures: SeriesFigures = { unit: 'L', mean: litres, sd: litresSd };

function dlcoFigures(unit: DlcoUnit): SeriesFigures {
  const inUnit = (value: number) => dlcoFromMlMinMmHg(value, unit);
  return {
    unit,
    mean: (value) => dlcoMean(inUnit(value), unit),
    sd: (value) => dlcoSd(inUnit(value), unit),
  };
}

function ownLimits(
  { z, mean, sd, n }: PointEvaluation,
  { minimumSize }: OwnLimitsPolicy,
  { unit, mean: writeMean, sd: writeSd }: SeriesFigures,
): Omit<FigureRow, 'name'> {
  if (z === null || mean === null || sd === null) {
    const note =
      n < minimumSize ? `${n} of ${minimumSize} accepted runs so far` : 'the runs so far have no spread';
    return { value: '–', unit: '', note };
  }
  return {
    value: `z ${zInTable(z)}`,
    unit: '',
    note: `mean ${writeMean(mean)}, SD ${writeSd(sd)} ${unit}, n ${n}`,
  };
}

function volumeCheckRow({ numbers }: RunAssessment): FigureRow[] {
  if (numbers.volumeCheckFraction === null) return [];
  return [
    {
      name: 'Volume check',
      value: signedPercent(numbers.volumeCheckFraction),
      unit: '%',
      note: `${litres(numbers.expectedVolumeCheckL)} L expected in this room`,
    },
  ];
}

function disagreementNote({ coTracerDisagreement, breathHoldAssumed, breathHoldS }: RunNumbers): string {
  if (coTracerDisagreement === null) return '';
  const hold = breathHoldAssumed ? `, for a breath-hold of ${plain(breathHoldS)} s` : '';
  return `${disagreementSentence(coTracerDisagreement)}${hold}`;
}

/** What the other choice of conversion would have given; null where VA was not reported in BTPS. */
export function otherConversionSentence(
  { conversion }: Pick<SimulationRun, 'conversion'>,
  { numbers }: RunAssessment,
): string | null {
  const other = numbers.otherConversion;
  if (other === null) return null;
  const differenceMl = (other.simulatedVaL - numbers.simulatedVaL) * 1000;
  const distance = `${millilitres(Math.abs(differenceMl))} mL ${differenceMl >= 0 ? 'higher' : 'lower'}`;
  return conversion.kind === 'computed'
    ? `The fixed ${other.conversion.kind === 'fixed' ? plain(other.conversion.factor) : ''} would have given ${litres(other.simulatedVaL)} L, ${distance}.`
    : `Computed for this room (${factor(other.factor)}) it would be ${litres(other.simulatedVaL)} L, ${distance}. ` +
        `The fixed factor is ${millilitres(Math.abs(differenceMl))} mL off here.`;
}
