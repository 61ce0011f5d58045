import type { Entry } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from './figures.ts';
import './history.css';
import { Struck } from './struck.tsx';

/** One field that an entry gave another value. */
export interface Change {
  name: string;
  from: string;
  to: string;
}

/** One entry of a record's history. */
export interface HistoryLine {
  entry: Entry;
  what: string;
  /** Empty where an entry needs none. */
  reason: string;
  changes: readonly Change[];
}

/** How a record came to be what it is: every entry about it, newest first, with its place in the chain. */
export function History({ lines }: { lines: readonly HistoryLine[] }) {
  const { logbook } = useLogbook();
  return (
    <section className="stack group">
      <h2>History</h2>
      <ol className="history">
        {lines.toReversed().map(({ entry, what, reason, changes }) => {
          const person = logbook.technologists.get(entry.by);
          return (
            <li key={entry.id}>
              <p className="quiet">
                {dayAndTime(entry.at, entry.zone)} ({entry.zone}),{' '}
                {person ? `${person.initials}, ${person.name}` : 'an unknown person'}
              </p>
              <p>
                <strong>{what}</strong>
                {reason === '' ? null : `: ${reason}`}
              </p>
              <ChangeList changes={changes} />
              <p className="quiet small">
                Entry {entry.seq} of workstation {entry.workstation.slice(0, 8)},{' '}
                <span className="hash">{entry.hash}</span>
              </p>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

/** Field by field: what stood, struck through, and what stands. */
export function ChangeList({ changes }: { changes: readonly Change[] }) {
  if (changes.length === 0) return null;
  return (
    <dl className="changes">
      {changes.map(({ name, from, to }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <span className="for-readers">was </span>
            <Struck>{from}</Struck> → {to}
          </dd>
        </div>
      ))}
    </dl>
  );
}
