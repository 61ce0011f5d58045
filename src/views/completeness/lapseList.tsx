import { useRef, useState } from 'react';
import type { Analyzer } from '../../journal/logbook.ts';
import type { GivenReason, Lapse } from './buildWeeks.ts';
import { GapForm } from './gapForm.tsx';

export function Reasons({ reasons }: { reasons: readonly GivenReason[] }) {
  return reasons.map(({ id, text, written }) => (
    <p key={id}>
      {text} <span className="quiet small">{written}</span>
    </p>
  ));
}

/** In place of the first day of a lapse. */
const otherDays = 'other';

/** What was missed or late, each with its reason or the way to give one. */
export function LapseList({ analyzer, lapses }: { analyzer: Analyzer; lapses: readonly Lapse[] }) {
  const [openAt, setOpenAt] = useState<string | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const close = () => {
    setOpenAt(null);
    // The form that had the focus goes: reading goes on at the head of the list.
    heading.current?.focus();
  };
  return (
    <section className="stack group">
      <h2 className="focus-stop" ref={heading} tabIndex={-1}>
        Missed and late
      </h2>
      {lapses.length === 0 ? <p className="quiet">None in this period.</p> : null}
      <ul className="lapse-list">
        {lapses.map(({ kind, from, to, sentence, reasons }) => (
          <li className="stack" key={from}>
            <p>{sentence}</p>
            <Reasons reasons={reasons} />
            {openAt === from ? (
              <GapForm analyzer={analyzer} from={from} onClose={close} to={to} />
            ) : (
              <p className="line line--baseline">
                {reasons.length === 0 ? <span className="quiet">No reason given.</span> : null}
                <button data-weight="line" onClick={() => setOpenAt(from)} type="button">
                  {reasons.length === 0 ? 'Give the reason' : 'Add another reason'}
                  <span className="for-readers">
                    {' '}
                    ({kind === 'gap' ? 'without a run' : 'late'}, from {from})
                  </span>
                  …
                </button>
              </p>
            )}
          </li>
        ))}
      </ul>
      {openAt === otherDays ? (
        <GapForm analyzer={analyzer} from="" onClose={close} to="" />
      ) : (
        <div className="line">
          <button onClick={() => setOpenAt(otherDays)} type="button">
            Give a reason for another check or other days…
          </button>
        </div>
      )}
    </section>
  );
}
