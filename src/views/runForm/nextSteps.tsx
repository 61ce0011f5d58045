import { type RefObject, useEffect, useMemo } from 'react';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useRepeatRun, useStartRun } from '../startRun.ts';
import { nextDue } from './nextDue.ts';

/** After a verdict: the next analyzer that is due, or this run again; each by a press, or by its letter. */
export default function NextSteps({
  run,
  frame,
}: {
  run: LoggedRun;
  /** Where the letters are heard: nowhere else does a letter begin a run. */
  frame: RefObject<HTMLElement | null>;
}) {
  const { logbook } = useLogbook();
  const start = useStartRun();
  const repeat = useRepeatRun();
  const next = useMemo(() => {
    const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
    return nextDue(logbook, run.body.analyzerId, Date.now(), timeZone);
  }, [logbook, run]);

  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || isTypedInto(event.target)) return;
      const key = event.key.toLowerCase();
      if (key !== 'n' && key !== 'r') return;
      if (key === 'n' && next === null) return;
      event.preventDefault();
      if (key === 'r') repeat(run);
      else if (next !== null) start({ analyzerId: next.id });
    };
    element.addEventListener('keydown', onKeyDown);
    return () => element.removeEventListener('keydown', onKeyDown);
  });

  return (
    <div className="line group">
      {next === null ? null : (
        <button aria-keyshortcuts="N" onClick={() => start({ analyzerId: next.id })} type="button">
          Next due: {next.label} <Key>N</Key>
        </button>
      )}
      <button aria-keyshortcuts="R" onClick={() => repeat(run)} type="button">
        Repeat this run <Key>R</Key>
      </button>
      {next === null ? <span className="quiet">No other run is due today.</span> : null}
    </div>
  );
}

const isTypedInto = (target: EventTarget | null) =>
  target instanceof HTMLInputElement ||
  target instanceof HTMLTextAreaElement ||
  target instanceof HTMLSelectElement;

/** Heard from `aria-keyshortcuts`, seen here. */
function Key({ children }: { children: string }) {
  return (
    <span aria-hidden="true" className="key">
      {children}
    </span>
  );
}
