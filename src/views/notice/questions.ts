/** What is asked of the core about how soon rules fire, and under what key its answer is kept. Pure. */
import { averageRunLength, type ControlPolicy, type RuleId, ruleIds, severityOf } from '../../core/index.ts';

/** What counts as noticed: anything that is said of a run, or only what fails it. */
export type Counting = 'signal' | 'failure';

export interface RunLengthQuestion {
  /** Never empty. */
  rules: readonly RuleId[];
  shiftSd: number;
  policy: ControlPolicy;
}

/** Mean runs until the first of the rules fires: `computing` while that is worked out, `never` where no rule is on. */
export type RunsUntil = number | 'computing' | 'never';

/** The rules of a policy that count, in their usual order. */
export const countingRules = (policy: ControlPolicy, counting: Counting): readonly RuleId[] =>
  ruleIds.filter((rule) => {
    const severity = severityOf(rule, policy);
    return severity === 'action' || (counting === 'signal' && severity === 'warning');
  });

/** Null where no rule counts. Rules see a shift up as they see one down. */
export function questionOf(
  policy: ControlPolicy,
  counting: Counting,
  shiftSd: number,
): RunLengthQuestion | null {
  const rules = countingRules(policy, counting);
  return rules.length === 0 ? null : { rules, shiftSd: Math.abs(shiftSd), policy };
}

/** One key for all questions that have one answer. */
export function questionKey({ rules, shiftSd, policy: { ewma, cusum } }: RunLengthQuestion): string {
  const parts: (string | number)[] = [...rules, shiftSd];
  if (rules.includes('EWMA')) parts.push(ewma.lambda, ewma.limit);
  if (rules.includes('CUSUM')) parts.push(cusum.slack, cusum.decision);
  return parts.join(' ');
}

/** May take a second where the rules can only be simulated: not on the thread of the page. */
export const answerTo = ({ rules, shiftSd, policy }: RunLengthQuestion): number =>
  averageRunLength(rules, shiftSd, policy);

export type KnownRunLengths = ReadonlyMap<string, number>;

export function runsUntil(question: RunLengthQuestion | null, known: KnownRunLengths): RunsUntil {
  if (question === null) return 'never';
  return known.get(questionKey(question)) ?? 'computing';
}
