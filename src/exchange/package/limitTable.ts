/** By which limits runs, controls and checks were judged in the period: every value of every edition in force. */
import {
  type CheckLimits,
  type PublishedLimits,
  publishedCheckLimits,
  publishedLimits2017,
} from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { person } from '../columnKinds.ts';
import { always, alwaysOneOf, type Column, columnsFor } from '../columns.ts';
import type { Chosen } from './chosen.ts';
import { entriesOfStep, inForce, type Step, stepTime } from './inForce.ts';
import type { PackageSource } from './source.ts';
import { type PackageTable, tableOf } from './table.ts';

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

export function limitTable({ logbook }: PackageSource, chosen: Chosen): PackageTable {
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
  return tableOf({
    name: 'limits',
    title: 'Limits in force',
    description:
      'Every limit of the editions that were in force on any day of the period. Each run and control carries those of its own day as well.',
    columns: limitColumns,
    rows: limitRows.map((row, index): LimitRow => ({ logbook, number: index + 1, ...row })),
    primaryKey: ['number'],
    entriesOf: entriesOfStep,
  });
}
