import type { EntryOf } from '../../journal/entries.ts';
import type { Failure } from '../failures.ts';
import { listHappenings } from './listHappenings.ts';

/** What the flags, bars and lines of the chart stand for, in words. */
export function Happenings({
  events,
  baselineStarts,
  failures,
}: {
  events: readonly EntryOf<'event-recorded'>[];
  baselineStarts: readonly EntryOf<'baseline-started'>[];
  failures: readonly Failure[];
}) {
  const happenings = listHappenings(events, baselineStarts, failures);
  if (happenings.length === 0) return null;
  return (
    <details className="happenings">
      <summary>Events, failures and new baselines ({happenings.length})</summary>
      <ul>
        {happenings.map(({ key, when, word, description }) => (
          <li key={key}>
            <span className="quiet">{when}</span> <strong>{word}</strong>
            {description === '' ? null : `: ${description}`}
          </li>
        ))}
      </ul>
    </details>
  );
}
