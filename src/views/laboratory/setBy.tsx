import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import type { SettingEntry } from './settingHistory.ts';

/** Who set what is in force, since when, and why. */
export function SetBy({ what, entry }: { what: string; entry: SettingEntry }) {
  const { logbook } = useLogbook();
  const person = logbook.technologists.get(entry.by);
  const since = 'from' in entry.body ? entry.body.from : entry.at;
  return (
    <p>
      {what} by {person ? `${person.initials}, ${person.name}` : 'an unknown person'}, since{' '}
      {dayAndTime(since, entry.zone)}: {entry.body.reason}
    </p>
  );
}
