/** Why a run was judged as it was: the rules in words and numbers, the runs that took part, and whose limits they are. Pure. */
import {
  type Assessments,
  type ControlPolicy,
  dlcoFromMlMinMmHg,
  ewmaLimit,
  type Finding,
  type PointEvaluation,
  publishedDlcoLimit,
  type Quantity,
  type RuleId,
  type RunAssessment,
} from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { evaluationOf, opensFailure } from '../failures.ts';
import { limitWidths } from '../judgedBy.ts';
import { dlco, litres, litresTyped, millilitres, plain, zInTable } from '../parts/figures.ts';
import { findingSentence, quantityWords, ruleWords } from '../parts/words.ts';
import { ruleTerm, type TermId } from '../terms.ts';
import { type FigureRow, otherConversionSentence, verdictFigures } from './verdictFigures.ts';

export interface TookPart {
  /** Null for the run itself while it is typed. */
  run: LoggedRun | null;
  value: string;
  z: string;
}

export interface RuleReason {
  key: string;
  title: string;
  sentence: string;
  runs: readonly TookPart[];
}

export interface Why {
  rules: readonly RuleReason[];
  figures: readonly FigureRow[];
  otherConversion: string | null;
  limits: { edition: string; source: string };
  /** The words that it is said in, those of the rules that fired first. */
  terms: readonly TermId[];
}

export function buildWhy(
  run: RunContent,
  assessment: RunAssessment,
  {
    logbook,
    assessments,
    policy,
  }: { logbook: Logbook; assessments: Pick<Assessments, 'get'>; policy: ControlPolicy },
): Why {
  const { findings } = assessment.verdict;
  // What fails the run before what warns; otherwise in the order of the rules.
  const inOrder = findings.toSorted((one, other) => Number(opensFailure(other)) - Number(opensFailure(one)));
  const reasons = inOrder.map((finding): RuleReason => {
    const { title, sentence } = reasonOf(finding, run, assessment, policy);
    const took =
      finding.kind === 'signal'
        ? { runs: runsBesides(finding, { run, assessment, logbook, assessments }), key: finding.rule }
        : { runs: [], key: finding.kind };
    const quantity = 'quantity' in finding ? finding.quantity : '';
    return { key: `${quantity} ${took.key}`, title, sentence, runs: took.runs };
  });
  return {
    rules: reasons.length > 0 ? reasons : [nothingFired(run, assessment, policy)],
    figures: verdictFigures(run, assessment, policy),
    otherConversion: otherConversionSentence(run, assessment),
    limits: run.limits,
    terms: termsOf(inOrder, assessment),
  };
}

function termsOf(findings: readonly Finding[], { verdict }: RunAssessment): TermId[] {
  const fired = findings.flatMap((finding) => (finding.kind === 'signal' ? [ruleTerm(finding.rule)] : []));
  return [
    ...new Set(fired),
    'conversion',
    'dead-space',
    'simulated-va',
    'published-limit',
    'own-limits',
    verdict.establishing ? 'establishing' : 'z',
    'dlco-of-a-syringe',
    'uncertainty',
  ];
}

function nothingFired(
  run: RunContent,
  { va, dlco: series }: RunAssessment,
  policy: ControlPolicy,
): RuleReason {
  const published =
    `VA lies within the published ${millilitres(run.limits.vaToleranceL * 1000)} mL, DLCO below the published ` +
    `${plain(publishedDlcoLimit(run.reading.dlcoUnit, run.limits))} ${run.reading.dlcoUnit}.`;
  return {
    key: 'none',
    title: 'Nothing in this run stands against it',
    sentence: `${published} ${ownInWords([va, series], policy)}`,
    runs: [],
  };
}

function ownInWords(both: readonly PointEvaluation[], { minimumSize }: ControlPolicy): string {
  const silent = both.filter(({ z }) => z === null);
  if (silent.length === 0) return 'None of the control rules fired.';
  return silent.some(({ n }) => n < minimumSize)
    ? `Own limits judge once ${plain(minimumSize)} runs are accepted.`
    : 'The runs so far do not differ at all: own limits cannot judge.';
}

function reasonOf(
  finding: Finding,
  { reading, limits }: RunContent,
  assessment: RunAssessment,
  policy: ControlPolicy,
): Pick<RuleReason, 'title' | 'sentence'> {
  switch (finding.kind) {
    case 'published-limit':
      return finding.quantity === 'va'
        ? {
            title: 'VA: the published limit',
            sentence: `Simulated VA has to lie within ${millilitres(limits.vaToleranceL * 1000)} mL of ${litresTyped(finding.target)} L, both ends included. One breach fails the run.`,
          }
        : {
            title: 'DLCO: the published limit',
            sentence: `DLCO has to lie below ${plain(publishedDlcoLimit(reading.dlcoUnit, limits))} ${reading.dlcoUnit} on either side of zero. One breach fails the run.`,
          };
    case 'signal': {
      const rule = ruleWords[finding.rule];
      const weight = finding.severity === 'action' ? 'It fails the run.' : 'It warns.';
      const evaluation = evaluationOf(assessment, finding.quantity);
      const numbers = ruleInNumbers(finding.rule, evaluation, policy);
      const z = finding.ids.length > 1 || evaluation.z === null ? '' : `Its z is ${zInTable(evaluation.z)}. `;
      return {
        title: `${quantityWords[finding.quantity]}: rule ${finding.rule}`,
        sentence: `${rule.charAt(0).toUpperCase()}${rule.slice(1)}. ${z}${numbers}${weight}`,
      };
    }
    case 'volume-check':
      return { title: 'The volume check', sentence: findingSentence(finding) };
    case 'breath-hold':
      return { title: 'The breath-hold', sentence: findingSentence(finding) };
  }
}

/** EWMA and CUSUM carry all earlier runs in one number: that number stands for the runs that took part. */
function ruleInNumbers(
  rule: RuleId,
  { n, ewma, cusumHigh, cusumLow }: PointEvaluation,
  policy: ControlPolicy,
): string {
  if (policy.smallSample && isWidened(rule)) {
    const { inner, outer } = limitWidths(policy, n);
    return `With limits from ${plain(n)} runs, 2 SD are widened to ${sdOf(inner)} and 3 SD to ${sdOf(outer)}. `;
  }
  if (rule === 'EWMA' && ewma !== null) {
    const bound = ewmaLimit(policy.ewma);
    return `The average, of which each new run makes ${plain(policy.ewma.lambda)}, stands at ${zInTable(ewma)} SD; its limit is ${zInTable(bound).replace('+', '±')}. `;
  }
  if (rule === 'CUSUM' && cusumHigh !== null && cusumLow !== null) {
    const isHigh = cusumHigh >= cusumLow;
    const sum = zInTable(Math.max(cusumHigh, cusumLow)).replace('+', '');
    return `Beyond ${plain(policy.cusum.slack)} SD each, they come to ${sum} SD on the ${isHigh ? 'high' : 'low'} side; the limit is ${plain(policy.cusum.decision)}. `;
  }
  return '';
}

/** The rules that count by 2 or 3 SD. */
const isWidened = (rule: RuleId) => rule === '1-2s' || rule === '1-3s' || rule === '2-2s' || rule === 'R-4s';
const sdOf = (width: number) => zInTable(width).replace('+', '');

/** The runs of a pattern. Where the run itself is all there is, its z stands in the sentence. */
function runsBesides(
  { ids, quantity }: Extract<Finding, { kind: 'signal' }>,
  {
    run,
    assessment,
    logbook,
    assessments,
  }: { run: RunContent; assessment: RunAssessment; logbook: Logbook; assessments: Pick<Assessments, 'get'> },
): TookPart[] {
  if (ids.length < 2) return [];
  return ids.map((id) => {
    const logged = logbook.runs.findLast((each) => each.id === id) ?? null;
    const judged = id === assessment.id ? assessment : assessments.get(id);
    const z = judged && evaluationOf(judged, quantity).z;
    return {
      run: logged,
      value: judged ? valueInUnit(judged, quantity, run) : '–',
      z: z === undefined || z === null ? '–' : zInTable(z),
    };
  });
}

/** In the unit of the run that is judged: a column has one unit. */
function valueInUnit({ numbers }: RunAssessment, quantity: Quantity, { reading }: RunContent): string {
  if (quantity === 'va') return `${litres(numbers.simulatedVaL)} L`;
  const { dlcoUnit } = reading;
  return `${dlco(dlcoFromMlMinMmHg(numbers.dlcoMlMinMmHg, dlcoUnit), dlcoUnit)} ${dlcoUnit}`;
}
