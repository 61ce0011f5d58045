/** From two dates and some ticks to what a package is about, or to what is wrong with them. Pure. */
import { addDays, addMonths, type CivilDate, daysBetween } from '../../core/index.ts';
import type { PackageScope } from '../../exchange/package/source.ts';
import { civilDay } from '../parts/figures.ts';

export interface ScopeDraft {
  from: string;
  to: string;
  /** Those that were taken out: an analyzer that is entered meanwhile is in. */
  without: readonly string[];
}

/** The year up to today: what an assessor asks for. */
export const usualScope = (today: CivilDate): ScopeDraft => ({
  from: addDays(addMonths(today, -12), 1),
  to: today,
  without: [],
});

export interface ScopeErrors {
  from?: string;
  to?: string;
  analyzers?: string;
}

export type ReadScope = { ok: true; scope: PackageScope } | { ok: false; errors: ScopeErrors };

export function readScope(
  { from, to, without }: ScopeDraft,
  { today, zone, analyzerIds }: { today: CivilDate; zone: string; analyzerIds: readonly string[] },
): ReadScope {
  const chosen = analyzerIds.filter((id) => !without.includes(id));
  const errors: ScopeErrors = {};
  if (!isDate(from)) errors.from = 'Choose a date, with a year of four digits.';
  else if (isDate(to) && from > to) errors.from = 'It begins after it ends.';
  if (!isDate(to)) errors.to = 'Choose a date, with a year of four digits.';
  else if (to > today) errors.to = `It cannot end after today, ${civilDay(today)}: choose an earlier day.`;
  if (chosen.length === 0) errors.analyzers = 'Tick one analyzer at least.';
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  return { ok: true, scope: { from, to, zone, analyzerIds: chosen } };
}

function isDate(text: string): boolean {
  if (!/^\d{4}-/.test(text)) return false;
  try {
    daysBetween(text, text);
    return true;
  } catch {
    return false;
  }
}
