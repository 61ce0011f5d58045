/** Series whose own SD is given, and what the core answers about them. */
import { type ControlPolicy, defaultControlPolicy, type RuleId, ruleIds } from '../../../src/core/index.ts';
import type { OwnSpread } from '../../../src/views/notice/ownSpreads.ts';
import {
  answerTo,
  type KnownRunLengths,
  questionKey,
  type RunLengthQuestion,
} from '../../../src/views/notice/questions.ts';

type Own = NonNullable<OwnSpread['own']>;

const own = ({ mean, sd }: Pick<Own, 'mean' | 'sd'>): Own => ({
  mean,
  sd,
  interval: { lower: 0.8 * sd, upper: 1.5 * sd },
});

export const vaSpread = (
  given: Pick<Own, 'mean' | 'sd'> | null,
  changes: Partial<OwnSpread> = {},
): OwnSpread => ({
  route: 'patient-test',
  quantity: 'va',
  unit: 'L',
  n: 20,
  own: given && own(given),
  published: { low: 2.7, high: 3.3, edition: 'ERS/ATS 2017' },
  ...changes,
});

export const dlcoSpread = (given: Pick<Own, 'mean' | 'sd'>, changes: Partial<OwnSpread> = {}): OwnSpread => ({
  ...vaSpread(given),
  quantity: 'dlco',
  unit: 'mL/min/mmHg',
  published: { low: -0.5, high: 0.5, edition: 'ERS/ATS 2017' },
  ...changes,
});

/** The usual policy with these rules as actions and no other on. */
export const onlyRules = (rules: readonly RuleId[], changes: Partial<ControlPolicy> = {}): ControlPolicy => ({
  ...defaultControlPolicy,
  ...changes,
  severity: Object.fromEntries(ruleIds.map((rule) => [rule, rules.includes(rule) ? 'action' : 'off'])),
});

export const answered = (questions: readonly RunLengthQuestion[]): KnownRunLengths =>
  new Map(questions.map((question) => [questionKey(question), answerTo(question)]));
