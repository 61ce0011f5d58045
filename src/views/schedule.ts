/**
 * What is due in a laboratory, check by check, as its journal says: its own schedule or the usual one, what was done last,
 * and the time an analyzer was out of service. Pure; Today lists it and the bench warns by it.
 */
import {
  type CheckDue,
  type CheckPlan,
  type CivilDate,
  checkDue,
  civilDateOf,
  type ServicePause,
  usualPlans,
} from '../core/index.ts';
import type { Entry, ScheduledCheck } from '../journal/entries.ts';
import type { Analyzer, Logbook, Syringe } from '../journal/logbook.ts';
import { fittingAt, scheduleOf } from '../journal/standing.ts';
import { ofTheLaboratory } from './routes.ts';
import { type DoneBefore, type LastDone, listDone } from './scheduleDone.ts';

export interface DueCheck {
  check: ScheduledCheck;
  about: CheckedThing;
  plan: CheckPlan;
  /** Nobody has set this laboratory's own schedule: the usual one holds. */
  isUsual: boolean;
  due: CheckDue;
  /** The date is one that somebody typed, of a certificate or a label, and not the interval's. */
  hasOwnDate: boolean;
  last: LastDone | null;
  /** One that is dated after today and so does not count as done. */
  datedAhead: LastDone | null;
  /** The one that failed, until a later one passes. A simulation's failure stands on its own: see failures.ts. */
  failed: LastDone | null;
  /** ISO 8601 instant of the fall after which the leak check has not been made yet. */
  droppedAt: string | null;
}

export interface CheckedThing {
  kind: 'analyzer' | 'syringe' | 'cylinder' | 'laboratory';
  /** `ofTheLaboratory` for what the laboratory has one of. */
  id: string;
  /** The analyzers that take their gas from a cylinder now. */
  fittedTo: readonly string[];
}

const ofAnalyzers = ['simulation', 'volume-check', 'biological-control', 'linearity', 'simulator'] as const;

/** Every check that is made here, of all that is in use, in the order of the logbook. `zone`: IANA, as on the wall. */
export function dueChecks(logbook: Logbook, now: number, zone: string): readonly DueCheck[] {
  const done = listDone(logbook, now, zone);
  const instant = new Date(now).toISOString();
  const since = sinceWhen(now, zone);
  const reckon = (check: ScheduledCheck, about: CheckedThing, given: Given): DueCheck[] => {
    const planned = planOf(logbook, check);
    if (planned === null) return [];
    const owed = { ...given, since: owedSince(check, given.since, logbook, zone) };
    return [dueCheck({ check, about, ...planned }, owed, done, now, zone)];
  };
  const analyzers = [...logbook.analyzers.values()].filter(isInUse);
  const ofEachAnalyzer = analyzers.flatMap(({ id, history }) => {
    const given = { since: since(history), pauses: pausesOf(logbook, id, zone) };
    return ofAnalyzers.flatMap((check) => reckon(check, thing('analyzer', id), given));
  });
  const fittings = analyzers.map(({ id }) => ({
    analyzerId: id,
    cylinderId: fittingAt(logbook, id, instant)?.body.cylinderId,
  }));
  const ofEachCylinder = [...logbook.cylinders.values()].filter(isInUse).flatMap((cylinder) => {
    const { id, history, description } = cylinder;
    if (description.expiresOn === null) return [];
    const fitted = fittings.filter(({ cylinderId }) => cylinderId === id);
    const about = { ...thing('cylinder', id), fittedTo: fitted.map(({ analyzerId }) => analyzerId) };
    return reckon('cylinder-expiry', about, { since: since(history), dueOn: description.expiresOn });
  });
  const ofEachSyringe = [...logbook.syringes.values()].filter(isInUse).flatMap((syringe) => {
    const { id, history } = syringe;
    const given = (check: keyof typeof dueFields): Given => ({
      since: since(history),
      ...typedDueOn(syringe, check, done.of(check, id)),
    });
    const droppedAt = lastDrop(logbook, id, instant);
    return [
      ...reckon('syringe-leak', thing('syringe', id), { ...given('syringe-leak'), droppedAt }),
      ...reckon('syringe-calibration', thing('syringe', id), given('syringe-calibration')),
    ];
  });
  const ofTheOnlyOne = reckon('barometer', thing('laboratory', ofTheLaboratory), {
    since: since(oldestOf(analyzers)),
  });
  return [...ofEachAnalyzer, ...ofEachCylinder, ...ofEachSyringe, ...ofTheOnlyOne];
}

/** What the equipment says, besides when the check was last done. */
interface Given {
  since: CivilDate;
  pauses?: readonly ServicePause[];
  /** A date of its own, which rules over the interval; left out where none was typed. */
  dueOn?: CivilDate;
  droppedAt?: string | null;
}

function dueCheck(
  planned: Pick<DueCheck, 'check' | 'about' | 'plan' | 'isUsual'>,
  { since, pauses = [], dueOn: typed, droppedAt = null }: Given,
  done: ReturnType<typeof listDone>,
  now: number,
  zone: string,
): DueCheck {
  const { last, judged, datedAhead } = done.of(planned.check, planned.about.id);
  const lastDoneAt = last?.at ?? null;
  const dueOn = typed ?? last?.validUntil ?? null;
  const dueAtOnceSince = droppedAt === null ? null : Date.parse(droppedAt);
  // It was in use when it was last done, or due, though it was written down here only later: with its imported runs, say.
  const doneOn = lastDoneAt === null ? since : civilDateOf(lastDoneAt, zone);
  const [inUseSince = since] = [since, doneOn, dueOn ?? since].sort();
  const history = { plan: planned.plan, since: inUseSince, lastDoneAt, pauses, dueOn, dueAtOnceSince };
  const isSettled = dueAtOnceSince === null || (lastDoneAt !== null && lastDoneAt > dueAtOnceSince);
  return {
    ...planned,
    due: checkDue(history, now, zone),
    hasOwnDate: dueOn !== null,
    last,
    datedAhead,
    failed: judged?.outcome === 'failed' ? judged : null,
    droppedAt: isSettled ? null : droppedAt,
  };
}

/** Since what day something is in use. A clock that was set back to before it was written down must not hide it. */
function sinceWhen(now: number, zone: string): (history: readonly Entry[]) => CivilDate {
  return ([added]) => civilDateOf(added === undefined ? now : Math.min(now, Date.parse(added.at)), zone);
}

const isInUse = ({ retired }: { retired: unknown }) => retired === null;
const thing = (kind: CheckedThing['kind'], id: string): CheckedThing => ({ kind, id, fittedTo: [] });

const oldestOf = (analyzers: readonly Analyzer[]): readonly Entry[] =>
  analyzers
    .flatMap(({ history }) => history.slice(0, 1))
    .sort((one, other) => Date.parse(one.at) - Date.parse(other.at));

/** A schedule that a laboratory sets does not reach back: what it never made before is owed from that day on. */
function owedSince(
  check: ScheduledCheck,
  since: CivilDate,
  { schedules }: Pick<Logbook, 'schedules'>,
  zone: string,
): CivilDate {
  const firstSet = schedules.find(({ body }) => body.check === check);
  if (check === 'simulation' || firstSet === undefined) return since;
  const setOn = civilDateOf(Date.parse(firstSet.at), zone);
  return setOn > since ? setOn : since;
}

/** The laboratory's own schedule, or the usual one; null where the check is not made here. */
export function planOf(
  logbook: Pick<Logbook, 'schedules'>,
  check: ScheduledCheck,
): Pick<DueCheck, 'plan' | 'isUsual'> | null {
  const own = scheduleOf(logbook, check);
  if (own === undefined) {
    const usual = usualPlans.find(({ kind }) => kind === check);
    return usual === undefined ? null : { plan: usual, isUsual: true };
  }
  if (!own.isMade) return null;
  const { every, announceDays, reason } = own;
  return { plan: { kind: check, every, announceDays, source: reason }, isUsual: false };
}

/** The days on which an analyzer was not used. Of two settings in a row that say the same, the first counts. */
export function pausesOf(
  { services }: Pick<Logbook, 'services'>,
  analyzerId: string,
  zone: string,
): ServicePause[] {
  const pauses: ServicePause[] = [];
  let from: CivilDate | null = null;
  const settings = services
    .filter(({ body }) => body.analyzerId === analyzerId)
    .sort((one, other) => Date.parse(one.body.from) - Date.parse(other.body.from));
  for (const { body } of settings) {
    const date = civilDateOf(Date.parse(body.from), zone);
    if (!body.inService) from ??= date;
    else if (from !== null) {
      pauses.push({ from, until: date });
      from = null;
    }
  }
  return from === null ? pauses : [...pauses, { from, until: null }];
}

function lastDrop({ drops }: Pick<Logbook, 'drops'>, syringeId: string, until: string): string | null {
  const instants = drops
    .filter(({ body }) => body.syringeId === syringeId && body.droppedAt <= until)
    .map(({ body }) => body.droppedAt);
  return instants.sort().at(-1) ?? null;
}

const dueFields = { 'syringe-leak': 'leakCheckDueOn', 'syringe-calibration': 'calibrationDueOn' } as const;

/** The date on a syringe's description, where it was typed after the check was last done: a check overtakes it. */
function typedDueOn(
  { history }: Syringe,
  check: keyof typeof dueFields,
  { last }: DoneBefore,
): { dueOn?: CivilDate } {
  const dates = history.flatMap(({ kind, body, at }) =>
    kind === 'syringe-added' || kind === 'syringe-changed'
      ? [{ dueOn: body[dueFields[check]], at: Date.parse(at) }]
      : [],
  );
  const stands = dates.at(-1)?.dueOn ?? null;
  if (stands === null) return {};
  // Back to where it was given this value: later changes were of something else.
  const typed = dates[dates.findLastIndex(({ dueOn }) => dueOn !== stands) + 1];
  if (typed === undefined) return {};
  // A check is noted to the minute: one made in the minute in which the date was typed comes after it.
  const minuteTyped = typed.at - (typed.at % 60_000);
  return last === null || minuteTyped > last.at ? { dueOn: stands } : {};
}

/**
 * A usual check of which none was ever noted, and that nobody typed a date for, is nobody's arrears: the laboratory has
 * not said that it is made here, or that it is written down here. A simulation is what the logbook is for.
 */
export const isNeverNoted = ({ check, isUsual, last, droppedAt, hasOwnDate }: DueCheck) =>
  check !== 'simulation' && isUsual && last === null && droppedAt === null && !hasOwnDate;

/** What the laboratory has said it does not do. */
export const checksNotMade = (logbook: Pick<Logbook, 'schedules'>): readonly ScheduledCheck[] =>
  usualPlans.map(({ kind }) => kind).filter((check) => scheduleOf(logbook, check)?.isMade === false);
