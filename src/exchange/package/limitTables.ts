/** By what runs, controls and checks were judged in the period: editions of limits, and the policies of the analyzers. */
import {
  type CheckLimits,
  type ControlPolicy,
  defaultControlPolicy,
  type PublishedLimits,
  publishedCheckLimits,
  publishedLimits2017,
  ruleIds,
  severityOf,
} from '../../core/index.ts';
import type { Entry } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { analyzerColumns } from './commonColumns.ts';
import type { PackageScope, PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

/** Something that holds from an instant on; from the beginning, and written by nobody, where it is the usual. */
interface Step<T> {
  from: string | null;
  holds: T;
  entry: Entry | null;
  reason: string;
}

/** Those in force on any day of the period, oldest first; of two from the same instant the one written later. */
function inForce<T>(steps: readonly Step<T>[], usual: T, { start, end }: Chosen): readonly Step<T>[] {
  const all = [{ from: null, holds: usual, entry: null, reason: '' }, ...steps].toSorted((one, other) =>
    compare(one.from ?? '', other.from ?? ''),
  );
  return all.filter(({ from }, index) => {
    const next = all[index + 1];
    const until = next === undefined ? null : next.from;
    return (from ?? '') < end && (until === null || (until > start && until !== from));
  });
}

const compare = (one: string, other: string) => (one < other ? -1 : one > other ? 1 : 0);

/** One value of an edition. */
interface Limit {
  what: string;
  value: number;
  unit: string;
  meaning: string;
  source: string;
}

interface LimitRow extends Limit {
  logbook: Logbook;
  number: number;
  of: 'runs' | 'checks';
  edition: string;
  step: Step<unknown>;
}

function limitsOfRuns(limits: PublishedLimits): readonly Limit[] {
  const { source, breathHoldS } = limits;
  const row = (what: string, value: number, unit: string, meaning: string): Limit => ({
    what,
    value,
    unit,
    meaning,
    source,
  });
  return [
    row('simulated-va', limits.vaToleranceL, 'L', 'largest distance from the target, ends allowed'),
    row('dlco', limits.dlcoMlMinMmHg, 'mL/min/mmHg', 'DLCO must lie below, where reported in this unit'),
    row('dlco', limits.dlcoMmolMinKPa, 'mmol/min/kPa', 'DLCO must lie below, where reported in this unit'),
    row(
      'volume-check',
      limits.volumeCheckFraction,
      'fraction',
      'largest distance from what is expected, ends allowed',
    ),
    row('breath-hold-target', breathHoldS.target, 's', 'time that is aimed at'),
    row('breath-hold-tolerance', breathHoldS.tolerance, 's', 'largest distance from it, ends allowed'),
  ];
}

function limitsOfChecks({
  biological,
  simulator,
  volumeCalibration,
  linearity,
  syringe,
  barometer,
}: CheckLimits): readonly Limit[] {
  const fraction = (
    what: string,
    { fraction: value, source }: CheckLimits['syringe'],
    meaning: string,
  ): Limit => ({
    what,
    value,
    unit: 'fraction',
    meaning,
    source,
  });
  const fromMean = 'largest distance from the mean of the first six tests, ends allowed';
  return [
    fraction('biological-control', biological, `${fromMean}, as a fraction of it`),
    {
      what: 'biological-control',
      value: biological.dlcoMlMinMmHg,
      unit: 'mL/min/mmHg',
      meaning: fromMean,
      source: biological.source,
    },
    {
      what: 'biological-control-cv',
      value: biological.cv,
      unit: 'fraction',
      meaning: 'coefficient of variation that can be reached',
      source: biological.source,
    },
    {
      what: 'simulator',
      value: simulator.dlcoMlMinMmHg,
      unit: 'mL/min/mmHg',
      meaning: 'largest distance from the target, ends allowed',
      source: simulator.source,
    },
    fraction('volume-calibration', volumeCalibration, 'largest distance from what is expected, ends allowed'),
    fraction('linearity', linearity, 'largest deviation, of full scale, ends allowed'),
    fraction('syringe', syringe, 'largest deviation, of the nominal volume, ends allowed'),
    fraction('barometer', barometer, 'largest deviation, of the reference, ends allowed'),
  ];
}

const limitKinds = columnsFor<LimitRow>();
const stepTime = (step: Step<unknown>) =>
  step.from === null || step.entry === null ? null : { at: step.from, zone: step.entry.zone };

const limitColumns: readonly Column<LimitRow>[] = [
  limitKinds.whole('number', 'Number of the row, from 1', ({ number }) => number, always),
  limitKinds.text('of', 'runs, or the other checks', ({ of }) => of, alwaysOneOf(['runs', 'checks'])),
  limitKinds.text('edition', 'Edition that it belongs to', ({ edition }) => edition, always),
  limitKinds.time(
    'from',
    'What is made from then on is judged by it; empty: by it as long as nothing was adopted',
    ({ step }) => stepTime(step),
  ),
  limitKinds.text('what', 'What is limited', ({ what }) => what, always),
  limitKinds.recorded('value', 'see unit', 'The limit', ({ value }) => value, always),
  limitKinds.text('unit', 'Unit of value', ({ unit }) => unit, always),
  limitKinds.text('meaning', 'How it is meant', ({ meaning }) => meaning, always),
  limitKinds.text('source', 'Where it comes from', ({ source }) => source, always),
  limitKinds.text('adopted_by', 'Initials and name of who adopted it', (row) =>
    person(row, row.step.entry?.by),
  ),
  limitKinds.text('reason', 'Why it was adopted', ({ step }) => step.reason),
];

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

export function limitTables(
  { logbook }: PackageSource,
  { analyzerIds }: PackageScope,
  chosen: Chosen,
): readonly PackageTable[] {
  const ofRuns = logbook.limitEditions.map((entry) => {
    const { from, limits: holds, reason } = entry.body;
    return { from, holds, entry, reason };
  });
  const ofChecks = logbook.checkLimitEditions.map((entry) => {
    const { from, limits: holds, reason } = entry.body;
    return { from, holds, entry, reason };
  });
  const limitRows = [
    ...inForce<PublishedLimits>(ofRuns, publishedLimits2017, chosen).flatMap((step) =>
      limitsOfRuns(step.holds).map((limit) => ({
        ...limit,
        of: 'runs' as const,
        edition: step.holds.edition,
        step,
      })),
    ),
    ...inForce<CheckLimits>(ofChecks, publishedCheckLimits, chosen).flatMap((step) =>
      limitsOfChecks(step.holds).map((limit) => ({
        ...limit,
        of: 'checks' as const,
        edition: step.holds.edition,
        step,
      })),
    ),
  ];
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
  const entriesOf = ({ step }: { step: Step<unknown> }) => (step.entry === null ? [] : [step.entry]);
  return [
    tableOf({
      name: 'limits',
      title: 'Limits in force',
      description:
        'Every limit of the editions that were in force on any day of the period. Each run and control carries those of its own day as well.',
      columns: limitColumns,
      rows: limitRows.map((row, index): LimitRow => ({ logbook, number: index + 1, ...row })),
      primaryKey: ['number'],
      entriesOf,
    }),
    tableOf({
      name: 'policies',
      title: 'Policies in force',
      description:
        'By which control rules the runs of each analyzer were judged on any day of the period. Of a biological control the baseline is always the first twenty tests, provisional from six on, with prediction factors.',
      columns: policyColumns,
      rows: policyRows.map((row, index): PolicyRow => ({ logbook, number: index + 1, ...row })),
      primaryKey: ['number'],
      foreignKeys: [keyTo('analyzer_id', 'analyzers')],
      entriesOf,
    }),
  ];
}
