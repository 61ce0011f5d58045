/** The form of a run that is begun from elsewhere. Pure. In a file of its own: the bench, once open, begins none. */
import type { LoggedRun } from '../../journal/logbook.ts';
import { localDay } from '../parts/localTime.ts';
import { type BenchDraft, emptyDraft, isHalfTyped } from './benchDraft.ts';
import { draftOfRun } from './draftMoves.ts';
import { carriedFrom, carriedIn } from './origins.ts';

/**
 * The form for another run than the one in it. What was typed of the room stays where no run was begun with it; with a
 * half-typed run, which is laid aside, goes all that was typed for it.
 */
export function draftForNewRun(draft: BenchDraft): BenchDraft {
  const { temperatureUnit, pressureUnit, technologistId } = draft;
  if (!isHalfTyped(draft)) return { ...draft, madeAt: '', investigates: null };
  const units = { temperatureUnit, pressureUnit };
  const carried = carriedIn(draft);
  const next: BenchDraft = { ...emptyDraft, technologistId, ...(carried.length > 0 ? units : {}) };
  const origins: BenchDraft['origins'] = {};
  for (const field of carried) {
    const origin = draft.origins[field];
    if (origin !== undefined) origins[field] = origin;
    Object.assign(next, { [field]: draft[field] });
  }
  return { ...next, origins };
}

/** The same run once more: all but what the analyzer reports. The room only where it was read today. */
export function draftOfRepeat(run: Pick<LoggedRun, 'body'>, by: string, now: number): BenchDraft {
  const of = draftOfRun(run);
  const { analyzerId, route, temperatureUnit, pressureUnit, vaReportedAs, dlcoUnit } = of;
  const next: BenchDraft = {
    ...emptyDraft,
    analyzerId,
    route,
    temperatureUnit,
    pressureUnit,
    vaReportedAs,
    dlcoUnit,
    reason: 'repeat',
  };
  const at = Date.parse(run.body.madeAt);
  const carried = carriedFrom(of, next, { at, now });
  // Who stands at the bench now, not who did then; today the two may well be one.
  const isOfToday = localDay(at) === localDay(now);
  if (isOfToday && (by === '' || by === carried.technologistId)) return carried;
  const { technologistId: _, ...origins } = carried.origins;
  return { ...carried, technologistId: by, origins };
}
