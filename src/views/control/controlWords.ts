/** A control's verdict in sentences, as far as both kinds are told alike. Pure. */
import type { ControlFinding, ControlPolicy, PointEvaluation } from '../../core/index.ts';
import { acrossLevelsSentence, ruleSentence } from '../charting/ruleNames.ts';
import { limitWidths } from '../judgedBy.ts';
import { zOnChart } from '../parts/figures.ts';
import { seriesWords } from './words.ts';

type Signal = Extract<ControlFinding, { kind: 'signal' }>;

const signalSentence = ({ series, rule, across }: Signal, noun: string): string =>
  across === 'levels'
    ? acrossLevelsSentence(rule)
    : `${seriesWords[series]}: ${rule}, ${ruleSentence(rule, noun)}.`;

/** The signals as sentences; what only warns of a series that fails anyway is no news. `noun`: `test` or `session`. */
export function signalSentences(findings: readonly ControlFinding[], noun: string): string[] {
  const isFailed = (series: ControlFinding['series']) =>
    findings.some(
      (finding) => finding.series === series && (finding.kind !== 'signal' || finding.severity === 'action'),
    );
  const told = findings.flatMap((finding) =>
    finding.kind === 'signal' && (finding.severity === 'action' || !isFailed(finding.series))
      ? [finding]
      : [],
  );
  // What is found between two levels is found once, though it stands in the series of both.
  return [...new Set(told.map((finding) => signalSentence(finding, noun)))];
}

/** Where a value lies among its own earlier ones: `Own limits: z +2.3, outside your 2 SD, widened for 8 tests.` */
export function ownSentence(
  { z, n }: PointEvaluation,
  policy: Pick<ControlPolicy, 'minimumSize' | 'smallSample'>,
  many: string,
): string {
  const { minimumSize, smallSample } = policy;
  if (z === null) {
    return n < minimumSize
      ? `No own limits yet (${n} of ${minimumSize} ${many}).`
      : `Own limits cannot judge: the ${many} have no spread.`;
  }
  const { inner, outer } = limitWidths(policy, n);
  const size = Math.abs(z);
  const where = size > outer ? 'outside your 3 SD' : size > inner ? 'outside your 2 SD' : 'inside your 2 SD';
  return `Own limits: z ${zOnChart(z)}, ${where}${smallSample ? `, widened for ${n} ${many}` : ''}.`;
}

/** A control's own limits as figures; null where there are none yet. */
export function ownLimits(
  { mean, sd, n }: PointEvaluation,
  policy: Pick<ControlPolicy, 'smallSample'>,
): { mean: number; sd: number; two: [number, number]; three: [number, number] } | null {
  if (mean === null || sd === null) return null;
  const { inner, outer } = limitWidths(policy, n);
  return {
    mean,
    sd,
    two: [mean - inner * sd, mean + inner * sd],
    three: [mean - outer * sd, mean + outer * sd],
  };
}
