import { type ReactNode, useRef, useState } from 'react';
import type { Entry } from '../../journal/entries.ts';
import type { Retirement } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { History } from '../parts/history.tsx';
import { Notice } from '../parts/notice.tsx';
import { historyOfRecord } from './historyOfRecord.ts';

export interface RecordAction {
  name: string;
  /** False while there is nothing of it to do; a form that stands open stays, and says so itself. */
  isOffered?: boolean;
  form: (close: () => void) => ReactNode;
}

/** The right page for one piece of equipment or one person: what it is, what can be done, and how it came to be so. */
export function RecordPage({
  title,
  state,
  rows,
  retired,
  left = 'Retired',
  actions,
  history,
  children,
}: {
  title: string;
  /** What to know before all else. */
  state?: ReactNode;
  rows: readonly { name: string; value: ReactNode }[];
  retired: Retirement | null;
  /** How its retirement is called. */
  left?: string;
  actions: readonly RecordAction[];
  history: readonly Entry[];
  children?: ReactNode;
}) {
  const { logbook } = useLogbook();
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
        <Notice title={`${left} on ${dayAndTime(retired.at)}`} tone="warn">
          <p>{retired.reason}</p>
        </Notice>
      ) : null}
      {state}
      <FigureList rows={rows} />
      {openAction ? (
        <div className="group">{openAction.form(close)}</div>
      ) : (
        <div className="line">
          {actions
            .filter(({ isOffered = true }) => isOffered)
            .map(({ name }) => (
              <button key={name} onClick={() => setOpen(name)} type="button">
                {name}
              </button>
            ))}
        </div>
      )}
      {children}
      <History lines={historyOfRecord(history, logbook)} />
    </article>
  );
}
