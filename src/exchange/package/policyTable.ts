/** By which control rules the runs of each analyzer were judged in the period. */
import { type ControlPolicy, defaultControlPolicy, ruleIds, severityOf } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns } from './commonColumns.ts';
import { entriesOfStep, inForce, type Step, stepTime } from './inForce.ts';
import type { PackageScope, PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

interface PolicyRow {
  logbook: Logbook;
  number: number;
  analyzerId: string;
  step: Step<ControlPolicy>;
}

const policyKinds = columnsFor<PolicyRow>();
const policy = ({ step }: PolicyRow) => step.holds;

const policyColumns: readonly Column<PolicyRow>[] = [
  policyKinds.whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  ...analyzerColumns<PolicyRow>(({ analyzerId }) => analyzerId, true),
  policyKinds.time('from', 'Runs made from then on are judged by it; empty: the usual policy', ({ step }) =>
    stepTime(step),
  ),
  policyKinds.text(
    'limits',
    'baseline: own limits from the first accepted runs of an epoch; rolling: from the newest',
    (row) => policy(row).limits,
    alwaysOneOf(['baseline', 'rolling']),
  ),
  policyKinds.whole(
    'baseline_size',
    'Runs in a full baseline or in the rolling window',
    (row) => policy(row).baselineSize,
    always,
  ),
  policyKinds.whole(
    'minimum_size',
    'Below so many accepted runs there are no own limits',
    (row) => policy(row).minimumSize,
    always,
  ),
  policyKinds.truth(
    'small_sample',
    'true where 2 and 3 SD are widened to the prediction factors of n',
    (row) => policy(row).smallSample,
    always,
  ),
  ...ruleIds.map((rule) =>
    policyKinds.text(
      `rule_${rule.toLowerCase().replace('-', '_')}`,
      `What the rule ${rule} is: a warning, an action that fails the run, or off`,
      (row) => severityOf(rule, policy(row)),
      alwaysOneOf(['action', 'warning', 'off']),
    ),
  ),
  policyKinds.recorded(
    'ewma_lambda',
    '',
    'Weight λ of the newest run in the EWMA',
    (row) => policy(row).ewma.lambda,
    always,
  ),
  policyKinds.recorded(
    'ewma_limit_sd',
    'SD of the EWMA',
    'Limit L of the EWMA',
    (row) => policy(row).ewma.limit,
    always,
  ),
  policyKinds.recorded(
    'cusum_slack_sd',
    'SD',
    'Slack k of the CUSUM',
    (row) => policy(row).cusum.slack,
    always,
  ),
  policyKinds.recorded(
    'cusum_decision_sd',
    'SD',
    'Decision interval h of the CUSUM',
    (row) => policy(row).cusum.decision,
    always,
  ),
  policyKinds.text('set_by', 'Initials and name of who set it', (row) => person(row, row.step.entry?.by)),
  policyKinds.text('reason', 'Why it was set', ({ step }) => step.reason),
];

export function policyTable(
  { logbook }: PackageSource,
  { analyzerIds }: PackageScope,
  chosen: Chosen,
): PackageTable {
  const policyRows = analyzerIds.flatMap((analyzerId) => {
    const steps = logbook.policies
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({
        from: entry.body.from,
        holds: entry.body.policy,
        entry,
        reason: entry.body.reason,
      }));
    return inForce<ControlPolicy>(steps, defaultControlPolicy, chosen).map((step) => ({ analyzerId, step }));
  });
  return tableOf({
    name: 'policies',
    title: 'Policies in force',
    description:
      'By which control rules the runs of each analyzer were judged on any day of the period. Of a biological control the baseline is always the first twenty tests, provisional from six on, with prediction factors.',
    columns: policyColumns,
    rows: policyRows.map((row, index): PolicyRow => ({ logbook, number: index + 1, ...row })),
    primaryKey: ['number'],
    foreignKeys: [keyTo('analyzer_id', 'analyzers')],
    entriesOf: entriesOfStep,
  });
}
