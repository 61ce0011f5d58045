/** Own limits, the control rules and how soon they notice a shift. Pure. */
import {
  averageRunLength,
  type ControlPolicy,
  defaultControlPolicy,
  defaultSeverity,
  ewmaLimit,
  predictionFactor,
  type RuleId,
  ruleIds,
  ruleSpan,
  severityOf,
} from '../../core/index.ts';
import { counted, litres, marked, plain, zInTable } from '../parts/figures.ts';
import { limitsKindWords, severityWords } from '../policyWords.ts';
import { ruleSources, ruleTerm, sources } from '../terms.ts';
import { equation, type MethodSection, table, text } from './methodModel.ts';
import { factsInForce, inForce, type PolicyGroup, saidAlike } from './policiesInForce.ts';

/** Accepted runs at which the widened limits are listed. */
const listedSizes = [6, 10, 12, 15, 20, 30, 50, 100];

export function ownLimitsSection(groups: readonly PolicyGroup[]): MethodSection {
  return {
    place: 'own-limits',
    title: 'Own limits',
    terms: ['own-limits', 'baseline', 'epoch', 'accepted', 'z', 'establishing'],
    blocks: [
      text(
        'A series is one quantity, VA or DLCO, of one analyzer by one method and one route, in time order; no mean mixes two of them. A run is judged by what was known before it: mean and SD are those of strictly earlier runs, and the verdict of its day is never computed anew.',
      ),
      equation('SD = √[Σ (x − mean)² / (n − 1)]\nz = (x − mean) / SD'),
      text(
        'A run is accepted, and so may enter them, when it is not voided or set aside, breached no published limit, fired no action rule and was made while no failure of its series was open. Without that a rolling mean would swallow the fault that it should show.',
      ),
      text(
        'A baseline is the mean and SD of the first accepted runs of its epoch, then frozen; until it is full it is provisional and made of all accepted so far. Rolling limits are those of the newest accepted runs of the epoch. Below the least number nothing is judged by own limits: the run is “establishing”, and the published limits alone judge.',
      ),
      ...factsInForce('In force today', groups, sizesInWords),
      text(
        'Where a policy widens limits that rest on few runs, 2 and 3 SD stand at the prediction factor of the n in force. A good next run then falls outside as seldom as it would outside 2 or 3 SD that are known for certain. 1 SD and the mean, which 4-1s and 10x count by, do not move.',
      ),
      equation('factor = t(n − 1; 1 − α/2) · √(1 + 1/n)'),
      table(
        'Prediction factors, in SD',
        ['Accepted runs', ...listedSizes.map((n) => `#${n}`)],
        ([2, 3] as const).map((sigmas) => [
          `in place of ${sigmas}`,
          ...listedSizes.map((n) => litres(predictionFactor(n, sigmas))),
        ]),
      ),
    ],
    sources: [
      `Mean ± 2 or 3 SD, ${plain(defaultControlPolicy.baselineSize)} runs and ${plain(defaultControlPolicy.minimumSize)} at the least: ${sources.commonPractice}`,
      'SD: Welford, Technometrics 1962;4:419',
      'Prediction factors: Hahn & Meeker, Statistical Intervals (1991), 4.7',
      `What is accepted, and epochs: ${sources.ownChoice}`,
    ],
  };
}

const sizesInWords = ({ limits, baselineSize, minimumSize, smallSample }: ControlPolicy) => [
  { name: 'Made from', value: limitsKindWords[limits] },
  {
    name: limits === 'baseline' ? 'Frozen at' : 'The newest',
    value: counted(baselineSize, 'accepted run'),
  },
  { name: 'Judge from', value: `${counted(minimumSize, 'accepted run')} on` },
  {
    name: 'Few runs',
    value: smallSample
      ? `2 and 3 SD widened: to ${factorsAt(minimumSize)} at ${minimumSize} runs, ${factorsAt(baselineSize)} at ${baselineSize}`
      : '2 and 3 SD as they are',
  },
];

/** `2.181 and 3.532`: where 2 and 3 SD stand with `n` runs. */
export const factorsAt = (n: number) =>
  ([2, 3] as const).map((sigmas) => litres(predictionFactor(n, sigmas))).join(' and ');

/** Where the z of its runs have to lie. In a file of words: the thresholds are held against the core by a test. */
const thresholdWords: Readonly<Record<Exclude<RuleId, 'EWMA' | 'CUSUM'>, string>> = {
  '1-2s': '|z| > 2',
  '1-3s': '|z| > 3',
  '2-2s': 'both z > 2, or both < −2',
  'R-4s': 'one z > 2, the other < −2',
  '4-1s': 'all z > 1, or all < −1',
  '10x': 'all z > 0, or all < 0; a zero breaks it',
  '7T': 'six steps all up, or all down; equal values break it',
};

function thresholdOf(rule: RuleId, groups: readonly PolicyGroup[]): string {
  if (rule === 'EWMA') return inForce(groups, ({ ewma }) => `|E| > ${ewmaBound(ewma)}`);
  if (rule === 'CUSUM') return inForce(groups, ({ cusum }) => `C⁺ or C⁻ > ${plain(cusum.decision)}`);
  return thresholdWords[rule];
}

const ewmaBound = (ewma: ControlPolicy['ewma']) => zInTable(ewmaLimit(ewma)).replace('+', '');

export function rulesSection(groups: readonly PolicyGroup[]): MethodSection {
  return {
    place: 'rules',
    title: 'Control rules',
    terms: ruleIds.map(ruleTerm),
    blocks: [
      table(
        'Each rule, and how much it weighs today',
        ['Rule', '#Runs', 'Limit', 'Usually', 'In force', 'Source'],
        ruleIds.map((rule) => [
          rule,
          // What fades has no number of runs.
          rule === 'EWMA' || rule === 'CUSUM' ? 'all' : String(ruleSpan[rule]),
          thresholdOf(rule, groups),
          defaultSeverity[rule],
          inForce(groups, (policy) => severityWords[severityOf(rule, policy)]),
          ruleSources[rule],
        ]),
      ),
      text(
        'An action fails the run and opens a failure; a warning does neither. Patterns count judged runs of one epoch that were not excluded, each with the z of its day. No pattern reaches back across a closed failure or a change of policy: EWMA and CUSUM start again from zero there, as at a new epoch.',
      ),
      equation('E = λ · z + (1 − λ) · E, from 0\nlimit: L · √[λ / (2 − λ)]'),
      equation('C⁺ = max(0, C⁺ + z − k)\nC⁻ = max(0, C⁻ − z − k)\nlimit: h'),
      ...factsInForce('In force today', groups, ({ ewma, cusum }) => [
        {
          name: 'EWMA',
          value: `λ ${plain(ewma.lambda)}, L ${plain(ewma.limit)}: the average may go ${ewmaBound(ewma)} SD off`,
        },
        { name: 'CUSUM', value: `k ${plain(cusum.slack)} SD, h ${plain(cusum.decision)} SD` },
      ]),
    ],
    sources: [
      `Patterns: ${sources.westgard}`,
      `EWMA: ${sources.ewma}`,
      `CUSUM: ${sources.cusum}`,
      `What warns and what fails: ${sources.commonPractice}`,
    ],
  };
}

const shifts = [0, 1, 2, 3];

/** The rules whose run lengths are exact and at once; 7T alone has to be simulated. */
const exactRules = ruleIds.filter((rule) => rule !== '7T');

/** Patterns of z, whose sets are exact as well. */
const isPattern = (rule: RuleId) => rule !== '7T' && rule !== 'EWMA' && rule !== 'CUSUM';

export function runLengthsSection(groups: readonly PolicyGroup[]): MethodSection {
  return {
    place: 'run-lengths',
    title: 'How soon a shift is noticed',
    terms: ['run-length'],
    blocks: [
      table(
        'Runs until a rule fires, on average, after the mean has moved by so many SD; at 0, between false alarms',
        ['Rule', ...shifts.map((shift) => `#${shift} SD`)],
        [...exactRules.flatMap((rule) => rowsOf(rule, groups)), ...togetherRows(groups)],
      ),
      text(
        'For a mean and SD that are known for certain, runs that do not depend on each other, and rules that start afresh. Own limits of some twenty runs are not known for certain: real figures scatter about these. 7T answers to a drift alone and is simulated where an analyzer’s own rules are asked what they would notice, from its charts.',
      ),
    ],
    sources: [
      'Patterns, an exact Markov chain: Champ & Woodall, Technometrics 1987;29:393',
      'EWMA, an integral equation: Crowder, Technometrics 1987;29:401',
      'CUSUM, an integral equation: Page, Biometrika 1954;41:100; both sides as by Kemp, J R Stat Soc B 1961;23:149',
    ],
  };
}

/** One row, or one for each setting in force of a rule that has settings. */
function rowsOf(rule: RuleId, groups: readonly PolicyGroup[]): string[][] {
  const settings = new Map(groups.map(({ policy }) => [settingOf(rule, policy), policy]));
  return [...settings].map(([setting, policy]) => [
    setting === '' ? rule : `${rule}, ${setting}`,
    ...shifts.map((shift) => runsInWords([rule], shift, policy)),
  ]);
}

function settingOf(rule: RuleId, { ewma, cusum }: ControlPolicy): string {
  if (rule === 'EWMA') return `λ ${plain(ewma.lambda)}, L ${plain(ewma.limit)}`;
  return rule === 'CUSUM' ? `k ${plain(cusum.slack)}, h ${plain(cusum.decision)}` : '';
}

/** All patterns together that fail a run, for each set of them that is in force. */
const togetherRows = (groups: readonly PolicyGroup[]): string[][] =>
  saidAlike(groups, (policy) =>
    ruleIds.filter((rule) => isPattern(rule) && severityOf(rule, policy) === 'action'),
  )
    .filter(({ said }) => said.length > 1)
    .map(({ said }) => [
      `${said.join(', ')} together`,
      ...shifts.map((shift) => runsInWords(said, shift, defaultControlPolicy)),
    ]);

function runsInWords(rules: readonly RuleId[], shiftSd: number, policy: ControlPolicy): string {
  const runs = averageRunLength(rules, shiftSd, policy);
  if (runs > 9999) return 'over 9999';
  return marked(runs.toFixed(runs < 100 ? 1 : 0));
}
