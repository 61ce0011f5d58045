/** Which analyzer is to be tested next. Pure. */
import type { Logbook } from '../../journal/logbook.ts';
import { dueChecks } from '../schedule.ts';

/** The analyzer whose simulation is due longest, without the one just tested; null where none is due today. */
export function nextDue(
  logbook: Logbook,
  justTested: string,
  now: number,
  zone: string,
): { id: string; label: string } | null {
  const [first] = dueChecks(logbook, now, zone)
    .filter(({ check, about, due }) => check === 'simulation' && about.id !== justTested && isDue(due.state))
    .sort((one, other) => (one.due.dueOn ?? '').localeCompare(other.due.dueOn ?? ''));
  const analyzer = first && logbook.analyzers.get(first.about.id);
  return analyzer ? { id: analyzer.id, label: analyzer.description.label } : null;
}

const isDue = (state: string) => state === 'today' || state === 'overdue';
