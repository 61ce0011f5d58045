import { type ReactNode, useRef, useState } from 'react';
import type { Entry } from '../../journal/entries.ts';
import type { Retirement } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';

export interface RecordAction {
  name: string;
  form: (close: () => void) => ReactNode;
}

/** The right page for one piece of equipment or one person: what it is, what can be done, and how it came to be so. */
export function RecordPage({
  title,
  rows,
  retired,
  actions,
  history,
  children,
}: {
  title: string;
  rows: readonly { name: string; value: ReactNode }[];
  retired: Retirement | null;
  actions: readonly RecordAction[];
  history: readonly Entry[];
  children?: ReactNode;
}) {
  const [open, setOpen] = useState<string | null>(null);
  const openAction = actions.find(({ name }) => name === open);
  const heading = useRef<HTMLHeadingElement>(null);
  const close = () => {
    setOpen(null);
    // The form that had the focus goes: the page's reader is taken back to the record it was about.
    heading.current?.focus();
  };
  return (
    <article className="stack stack--loose record">
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      {retired ? (
        <Notice title={`Retired on ${dayAndTime(retired.at)}`} tone="warn">
          <p>{retired.reason}</p>
        </Notice>
      ) : null}
      <FigureList rows={rows} />
      {openAction ? (
        <div className="group">{openAction.form(close)}</div>
      ) : (
        <div className="line">
          {actions.map(({ name }) => (
            <button key={name} onClick={() => setOpen(name)} type="button">
              {name}
            </button>
          ))}
        </div>
      )}
      {children}
      <History entries={history} />
    </article>
  );
}

const historyWords: Partial<Record<Entry['kind'], string>> = {
  'technologist-added': 'Added',
  'technologist-changed': 'Changed',
  'technologist-retired': 'Retired',
  'analyzer-added': 'Added',
  'analyzer-changed': 'Changed',
  'analyzer-retired': 'Retired',
  'syringe-added': 'Added',
  'syringe-changed': 'Changed',
  'syringe-retired': 'Retired',
  'key-registered': 'Passphrase registered',
};

function History({ entries }: { entries: readonly Entry[] }) {
  const { logbook } = useLogbook();
  return (
    <section className="stack group">
      <h2>History</h2>
      <ol className="history">
        {entries.toReversed().map(({ id, kind, at, zone, by, body }) => (
          <li key={id}>
            <span className="quiet">
              {dayAndTime(at, zone)}, {logbook.technologists.get(by)?.initials ?? 'unknown'}
            </span>
            <br />
            {historyWords[kind]}
            {'reason' in body && body.reason !== '' ? `: ${body.reason}` : null}
          </li>
        ))}
      </ol>
    </section>
  );
}
