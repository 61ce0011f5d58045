/** The right page of the bench in words and figures: what was found, against which limit, how far, and what to do now. */
import {
  type DlcoUnit,
  dlcoFromMlMinMmHg,
  type PointEvaluation,
  publishedDlcoLimit,
  type RunAssessment,
  type RunNumbers,
  type SimulationRun,
} from '../../core/index.ts';
import {
  dlcoMean,
  dlcoSd,
  dlcoTyped,
  factor,
  litres,
  litresSd,
  millilitres,
  plain,
  signedMillilitres,
  signedPercent,
  tenthsOfMillilitre,
  zInTable,
  zOnChart,
} from '../parts/figures.ts';
import { conversionWords, disagreementSentence, findingSentence } from '../parts/words.ts';

export interface FigureRow {
  name: string;
  value: string;
  unit: string;
  note: string;
}

export interface VerdictPage {
  /** One sentence for VA, one for DLCO. */
  found: readonly string[];
  /** Further reasons: rules that fired, the volume check, the breath-hold. */
  reasons: readonly string[];
  whatToDo: string;
  /** What the other choice of conversion would have given; null where VA was not reported in BTPS. */
  otherConversion: string | null;
  figures: readonly FigureRow[];
}

/** How many accepted runs a baseline needs before it judges; the policy's minimum. */
interface BaselineNeed {
  minimumSize: number;
}

export function buildVerdictPage(
  run: Pick<SimulationRun, 'reading' | 'conversion' | 'limits' | 'ambient'>,
  assessment: RunAssessment,
  need: BaselineNeed,
): VerdictPage {
  const { numbers, verdict } = assessment;
  return {
    found: [vaSentence(run, assessment, need), dlcoSentence(run, assessment, need)],
    reasons: verdict.findings.filter(({ kind }) => kind !== 'published-limit').map(findingSentence),
    whatToDo: whatToDo(assessment),
    otherConversion: otherConversionSentence(run, assessment),
    figures: [
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
      { name: 'VA against own runs', ...ownLimits(assessment.va, need, vaFigures) },
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
        ...ownLimits(assessment.dlco, need, dlcoFigures(run.reading.dlcoUnit)),
      },
      {
        name: 'DLCO published limit',
        value: `< ${plain(publishedDlcoLimit(run.reading.dlcoUnit, run.limits))}`,
        unit: run.reading.dlcoUnit,
        note: numbers.dlcoWithinPublished ? 'below' : 'not below',
      },
      ...volumeCheckRow(assessment),
    ],
  };
}

function vaSentence(
  { limits }: Pick<SimulationRun, 'limits'>,
  { numbers, va }: RunAssessment,
  need: BaselineNeed,
): string {
  const where = vaDistance(numbers, limits.vaToleranceL * 1000);
  const published = `${numbers.vaWithinPublished ? 'inside' : 'outside'} the published ${millilitres(limits.vaToleranceL * 1000)} mL`;
  return `Simulated VA is ${where}${zInWords(va)}. ${ownPhrase(va, need, published)}`;
}

/** A whole mL is enough, but where it would say that a run at 300.4 mL lies on the limit it is outside of. */
function vaDistance({ vaOffTargetMl, vaWithinPublished }: RunNumbers, limitMl: number): string {
  const size = Math.abs(vaOffTargetMl);
  if (Math.round(size) === 0) return 'on target';
  const isRoundedInside = !vaWithinPublished && Math.round(size) <= limitMl;
  return `${isRoundedInside ? tenthsOfMillilitre(Math.ceil(size * 10) / 10) : millilitres(size)} mL ${vaOffTargetMl > 0 ? 'high' : 'low'}`;
}

function dlcoSentence(
  run: Pick<SimulationRun, 'reading' | 'limits'>,
  { numbers, dlco: series }: RunAssessment,
  need: BaselineNeed,
): string {
  const { dlco: value, dlcoUnit } = run.reading;
  const published = `${numbers.dlcoWithinPublished ? 'below' : 'not below'} the published ${plain(publishedDlcoLimit(run.reading.dlcoUnit, run.limits))}`;
  return `DLCO is ${dlcoTyped(value, dlcoUnit)} ${dlcoUnit}${zInWords(series)}. ${ownPhrase(series, need, published)}`;
}

const zInWords = ({ z }: PointEvaluation) => (z === null ? '' : ` (z ${zOnChart(z)})`);

function ownPhrase({ z, n }: PointEvaluation, { minimumSize }: BaselineNeed, published: string): string {
  if (z === null) {
    const state =
      n < minimumSize
        ? `No own limits yet (${n} of ${minimumSize} runs)`
        : 'Own limits cannot judge (no spread)';
    return `${state}; ${published}.`;
  }
  const size = Math.abs(z);
  if (size > 3) return `Outside your 3 SD, ${published}.`;
  if (size > 2) return `Outside your 2 SD, ${published}.`;
  return `Inside your 2 SD, ${published}.`;
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
  { minimumSize }: BaselineNeed,
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

function otherConversionSentence(
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

function whatToDo({ verdict, va, dlco: series }: RunAssessment): string {
  if (verdict.word === 'fail') {
    return 'Stop: no patients on this analyzer until the responsible person says so. Check the typed values, then run again and tell the supervisor.';
  }
  if (va.failureOpen || series.failureOpen) {
    const byItself =
      verdict.word === 'pass'
        ? 'This run is good by itself, but a failure is still open'
        : 'A failure is still open';
    return `${byItself}: no patients until a supervisor has closed it.`;
  }
  if (verdict.word === 'warn') {
    return 'Run again now. If it stays, tell the supervisor before the next patient.';
  }
  if (verdict.establishing) {
    return 'Within the published limits. Go on with the weekly runs until the own limits can judge.';
  }
  return 'Nothing in this run speaks against testing patients. Local procedure decides.';
}
