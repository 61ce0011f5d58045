/** What a verdict rests on, in the sentences that stand beside its word: what was found, against which limit, how far. */
import {
  type ControlPolicy,
  type Finding,
  type PointEvaluation,
  publishedDlcoLimit,
  type RunAssessment,
  type RunNumbers,
  type SimulationRun,
} from '../../core/index.ts';
import { opensFailure } from '../failures.ts';
import { limitWidths } from '../judgedBy.ts';
import { dlcoTyped, millilitres, plain, tenthsOfMillilitre, zOnChart } from '../parts/figures.ts';
import { findingSentence } from '../parts/words.ts';

export interface VerdictPage {
  /** One sentence for VA, one for DLCO. */
  found: readonly string[];
  /** Further reasons: rules that fired, the volume check, the breath-hold. */
  reasons: readonly string[];
}

/** What of a policy the own limits rest on: how many accepted runs they need, and whether few runs widen them. */
export type OwnLimitsPolicy = Pick<ControlPolicy, 'minimumSize' | 'smallSample'>;

export function buildVerdictPage(
  run: Pick<SimulationRun, 'reading' | 'limits'>,
  assessment: RunAssessment,
  policy: OwnLimitsPolicy,
): VerdictPage {
  const { findings } = assessment.verdict;
  return {
    found: [vaSentence(run, assessment, policy), dlcoSentence(run, assessment, policy)],
    reasons: findings.filter((finding) => !goesWithoutSaying(finding, findings)).map(findingSentence),
  };
}

/**
 * A published limit stands in the first sentences. And where a quantity fails, what only warns of it is no news: one run
 * far out moves every average with it.
 */
function goesWithoutSaying(finding: Finding, all: readonly Finding[]): boolean {
  if (finding.kind !== 'signal') return finding.kind === 'published-limit';
  const { quantity, severity } = finding;
  return severity === 'warning' && all.some((other) => opensFailure(other) && other.quantity === quantity);
}

function vaSentence(
  { limits }: Pick<SimulationRun, 'limits'>,
  { numbers, va }: RunAssessment,
  policy: OwnLimitsPolicy,
): string {
  const where = vaDistance(numbers, limits.vaToleranceL * 1000);
  const published = `${numbers.vaWithinPublished ? 'inside' : 'outside'} the published ${millilitres(limits.vaToleranceL * 1000)} mL`;
  return `Simulated VA is ${where}${zInWords(va)}. ${ownPhrase(va, policy, published, fromOwnMean(numbers, va))}`;
}

/** The target is one mark and the own mean another: a run on target can be far from what this analyzer reads. */
function fromOwnMean({ simulatedVaL }: RunNumbers, { mean }: PointEvaluation): string {
  if (mean === null) return '';
  const ml = (simulatedVaL - mean) * 1000;
  return `, ${millilitres(Math.abs(ml))} mL ${ml > 0 ? 'above' : 'below'} your mean`;
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
  policy: OwnLimitsPolicy,
): string {
  const { dlco: value, dlcoUnit } = run.reading;
  const published = `${numbers.dlcoWithinPublished ? 'below' : 'not below'} the published ${plain(publishedDlcoLimit(run.reading.dlcoUnit, run.limits))}`;
  return `DLCO is ${dlcoTyped(value, dlcoUnit)} ${dlcoUnit}${zInWords(series)}. ${ownPhrase(series, policy, published)}`;
}

const zInWords = ({ z }: PointEvaluation) => (z === null ? '' : ` (z ${zOnChart(z)})`);

function ownPhrase(
  { z, n }: PointEvaluation,
  policy: OwnLimitsPolicy,
  published: string,
  fromMean = '',
): string {
  const { minimumSize, smallSample } = policy;
  if (z === null) {
    const state =
      n < minimumSize
        ? `No own limits yet (${n} of ${minimumSize} runs)`
        : 'Own limits cannot judge (no spread)';
    return `${state}; ${published}.`;
  }
  const size = Math.abs(z);
  const { inner, outer } = limitWidths(policy, n);
  const how = smallSample ? `, widened for ${n} runs` : '';
  if (size > outer) return `Outside your 3 SD${how}${fromMean}, ${published}.`;
  if (size > inner) return `Outside your 2 SD${how}${fromMean}, ${published}.`;
  return `Inside your 2 SD${how}, ${published}.`;
}
