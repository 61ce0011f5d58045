/** How completely a check was made on one analyzer in a period, as the journal says: what the core's reckoning is given. Pure. */
import {
  type CheckInterval,
  type CivilDate,
  type Completeness,
  civilDateOf,
  completeness,
  type FormerInterval,
  usualPlans,
} from '../core/index.ts';
import type { ScheduledCheck } from '../journal/entries.ts';
import type { Analyzer, Logbook } from '../journal/logbook.ts';
import { dayIn } from './investigationShift.ts';
import { pausesOf, planOf } from './schedule.ts';

/** The checks that are made on each analyzer, the simulation first. */
export const analyzerChecks = [
  'simulation',
  'biological-control',
  'volume-check',
  'linearity',
  'simulator',
] as const satisfies readonly ScheduledCheck[];
export type AnalyzerCheck = (typeof analyzerChecks)[number];

export interface CompletenessQuestion {
  analyzer: Analyzer;
  check: AnalyzerCheck;
  /** Both ends in. */
  period: { from: CivilDate; to: CivilDate };
  /** In ms, and the zone of the clock on the wall. */
  now: number;
  zone: string;
}

export interface CompletenessAnswer extends Completeness {
  every: CheckInterval;
  /** Nobody has set this laboratory's own schedule, and none was ever made: it is nobody's arrears. */
  isNeverNoted: boolean;
}

/** Null where the laboratory does not make the check, or only by dates of its own. */
export function completenessOf(
  logbook: Logbook,
  { analyzer, check, period, now, zone }: CompletenessQuestion,
): CompletenessAnswer | null {
  const planned = planOf(logbook, check);
  const every = planned?.plan.every ?? null;
  if (planned === null || every === null) return null;
  const { id, history, retired } = analyzer;
  const madeOn = daysMade(logbook, check, id);
  const addedOn = civilDateOf(Math.min(now, ...history.slice(0, 1).map(({ at }) => Date.parse(at))), zone);
  const found = completeness({
    ...period,
    madeOn,
    every,
    formerly: formerIntervals(check, logbook),
    since: check === 'simulation' ? addedOn : sinceOf(check, addedOn, madeOn, logbook),
    retiredOn: retired === null ? null : civilDateOf(Date.parse(retired.at), zone),
    pauses: pausesOf(logbook, id, zone),
    today: civilDateOf(now, zone),
    explanations: logbook.gaps.flatMap(({ body: { gapId, analyzerId, check: of, from, to, reason } }) =>
      analyzerId === id && of === check ? [{ id: gapId, from, to, reason }] : [],
    ),
  });
  return { ...found, every, isNeverNoted: check !== 'simulation' && planned.isUsual && madeOn.length === 0 };
}

/**
 * From when on a check other than the simulation is counted: nobody owes it before it was made once, or the laboratory set a schedule
 * of its own, which does not reach back.
 */
function sinceOf(
  check: AnalyzerCheck,
  addedOn: CivilDate,
  madeOn: readonly CivilDate[],
  { schedules }: Pick<Logbook, 'schedules'>,
): CivilDate {
  const firstSet = schedules.find(({ body }) => body.check === check);
  const setOn = firstSet && dayIn(Date.parse(firstSet.at), firstSet.zone);
  const [first = addedOn] = [...madeOn, ...(setOn === undefined ? [] : [setOn])].sort();
  return first < addedOn ? addedOn : first;
}

/** The interval before each setting of the schedule: the usual one before the first. */
function formerIntervals(
  check: AnalyzerCheck,
  { schedules }: Pick<Logbook, 'schedules'>,
): readonly FormerInterval[] {
  const settings = schedules
    .filter(({ body }) => body.check === check)
    .toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at));
  const usual = usualPlans.find(({ kind }) => kind === check)?.every ?? null;
  return settings.map(({ at, zone }, index) => {
    const before = settings[index - 1]?.body;
    const every = before === undefined ? usual : before.isMade ? before.every : null;
    return { until: dayIn(Date.parse(at), zone), every };
  });
}

/** Each day on which it was made and stands, by the clock of where it was written down. */
function daysMade(logbook: Logbook, check: AnalyzerCheck, analyzerId: string): CivilDate[] {
  if (check === 'simulation') {
    return logbook.runs.flatMap(({ body, entry, simulation, voided }) =>
      voided === null && body.method === 'syringe' && body.analyzerId === analyzerId
        ? [dayIn(simulation.at, entry.zone)]
        : [],
    );
  }
  const noted = logbook.checks.flatMap(({ entry, voided }) =>
    voided === null && entry.body.check === check && entry.body.analyzerId === analyzerId
      ? [dayIn(Date.parse(entry.body.doneAt), entry.zone)]
      : [],
  );
  const kind = check === 'biological-control' ? 'biological' : check === 'simulator' ? 'simulator' : null;
  const entered = logbook.controls.flatMap(({ control, entry, at, voided }) =>
    voided === null && control.kind === kind && control.analyzerId === analyzerId
      ? [dayIn(at, entry.zone)]
      : [],
  );
  return [...noted, ...entered];
}

/** `2026-Q2` as `Q2 2026`. */
export const quarterWords = (quarter: string) => quarter.split('-').reverse().join(' ');
