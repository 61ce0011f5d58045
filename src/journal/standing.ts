/** What holds at a moment: read from entries that each say "from then on". Instants are ISO 8601 in UTC, as in the journal. */
import type { CheckLimits, EntryOf, LaboratoryDescription, ScheduledCheck, SubjectState } from './entries.ts';
import type { Logbook } from './logbook.ts';

/** The newest of those that hold at an instant; of two from the same instant the one written later. */
function inForce<T>(entries: readonly T[], fromOf: (entry: T) => string, at: string): T | undefined {
  let found: T | undefined;
  for (const entry of entries) {
    const from = fromOf(entry);
    if (from <= at && (found === undefined || from >= fromOf(found))) found = entry;
  }
  return found;
}

/** The newest setting of an analyzer's service up to an instant; undefined while nothing was ever said: it is in service. */
export function serviceAt(
  { services }: Pick<Logbook, 'services'>,
  analyzerId: string,
  at: string,
): EntryOf<'service-set'> | undefined {
  const ofAnalyzer = services.filter(({ body }) => body.analyzerId === analyzerId);
  return inForce(ofAnalyzer, ({ body }) => body.from, at);
}

/** Out of service since, and why; null where the analyzer is in service. */
export function outOfService(
  logbook: Pick<Logbook, 'services'>,
  analyzerId: string,
  at: string,
): EntryOf<'service-set'>['body'] | null {
  const service = serviceAt(logbook, analyzerId, at);
  return service === undefined || service.body.inService ? null : service.body;
}

/** The fitting in force on an analyzer; undefined where none was ever written down. */
export function fittingAt(
  { fittings }: Pick<Logbook, 'fittings'>,
  analyzerId: string,
  at: string,
): EntryOf<'cylinder-fitted'> | undefined {
  const ofAnalyzer = fittings.filter(({ body }) => body.analyzerId === analyzerId);
  return inForce(ofAnalyzer, ({ body }) => body.fittedAt, at);
}

/** The limits adopted last up to an instant; undefined where none were: the published ones of the core hold. */
export function adoptedLimitsAt(
  { limitEditions }: Pick<Logbook, 'limitEditions'>,
  at: string,
): EntryOf<'limits-adopted'>['body']['limits'] | undefined {
  return inForce(limitEditions, ({ body }) => body.from, at)?.body.limits;
}

/** The limits of the other checks adopted last up to an instant; undefined where none were: the published ones of the core hold. */
export function adoptedCheckLimitsAt(
  { checkLimitEditions }: Pick<Logbook, 'checkLimitEditions'>,
  at: string,
): CheckLimits | undefined {
  return inForce(checkLimitEditions, ({ body }) => body.from, at)?.body.limits;
}

/** What was said last, up to an instant, of a biological control's person; undefined while nothing was: they are tested. */
export function subjectSettingAt(
  { subjectStates }: Pick<Logbook, 'subjectStates'>,
  subjectId: string,
  at: string,
): EntryOf<'subject-state-set'>['body'] | undefined {
  const ofSubject = subjectStates.filter(({ body }) => body.subjectId === subjectId);
  return inForce(ofSubject, ({ body }) => body.from, at)?.body;
}

/** How it stands with them at an instant. That they have left for good stands in `retired`. */
export const subjectStateAt = (
  logbook: Pick<Logbook, 'subjectStates'>,
  subjectId: string,
  at: string,
): SubjectState => subjectSettingAt(logbook, subjectId, at)?.state ?? 'active';

/** An analyzer's policies, oldest first, as the core takes them; `from` in ms. */
export function policyStepsOf({ policies }: Pick<Logbook, 'policies'>, analyzerId: string) {
  return policies
    .filter(({ body }) => body.analyzerId === analyzerId)
    .map(({ body: { from, policy } }) => ({ from: Date.parse(from), policy }))
    .sort((one, other) => one.from - other.from);
}

/** The schedule as it was set last; undefined where nobody has: the usual one of the core holds. */
export function scheduleOf(
  { schedules }: Pick<Logbook, 'schedules'>,
  check: ScheduledCheck,
): EntryOf<'schedule-set'>['body'] | undefined {
  return schedules.findLast(({ body }) => body.check === check)?.body;
}

/** What a failure needs before it can be closed, as it was set last. */
export interface ClosingRules {
  /** Passing runs after the last failing one. */
  proofRuns: number;
  needsAction: boolean;
  needsLookBack: boolean;
}

/** That a repair is proven by a run that passes: common practice, no source. */
export const usualClosingRules: ClosingRules = { proofRuns: 1, needsAction: true, needsLookBack: true };

export function closingRulesOf({ closingRules }: Pick<Logbook, 'closingRules'>): ClosingRules {
  const newest = closingRules.at(-1)?.body;
  if (newest === undefined) return usualClosingRules;
  const { proofRuns, needsAction, needsLookBack } = newest;
  return { proofRuns, needsAction, needsLookBack };
}

/** How the laboratory writes as long as nobody has described it. */
export const usualDescription: LaboratoryDescription = {
  name: '',
  decimalMark: 'point',
  dateForm: 'd-mon-yyyy',
  clock: '24',
  temperatureUnit: '°C',
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
};

export function laboratoryOf({ laboratory }: Pick<Logbook, 'laboratory'>): LaboratoryDescription {
  const newest = laboratory.at(-1);
  if (newest === undefined) return usualDescription;
  const { descriptionId: _id, reason: _reason, ...description } = newest.body;
  return description;
}
