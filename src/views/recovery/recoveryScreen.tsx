import { useState } from 'react';
import type { MissingEntries } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { RestoreForm } from '../parts/restoreForm.tsx';
import { Spread } from '../parts/spread.tsx';
import { GiveUpForm } from './giveUpForm.tsx';

/**
 * In place of every other page while the database holds less than the mark outside it knows of: an empty logbook must
 * never look like a first day.
 */
export default function RecoveryScreen({ missing }: { missing: MissingEntries }) {
  const { handle } = useLogbook();
  const { known, found } = missing;
  const [givesUp, setGivesUp] = useState(false);
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>{found === 0 ? 'The logbook came back empty' : 'The logbook came back with less'}</h1>
            <p>
              This browser stored {counted(known.count, 'entry', 'entries')} here, the last on{' '}
              {dayAndTime(known.at)}.{' '}
              {found === 0 ? 'Now it gives back none.' : `Now it gives back ${found}.`} This program erases
              nothing. A browser drops what it stored when its site data is cleared, when its profile is
              replaced or damaged, or when the disk runs short.
            </p>
            <p>Until you have restored them or decided otherwise, nothing is recorded here.</p>
          </header>
          <section className="stack group">
            <h2>What is known</h2>
            <FigureList
              rows={[
                { name: 'Entries stored', value: known.count },
                { name: 'Entries found now', value: found },
                { name: 'Last entry written', value: dayAndTime(known.at) },
                { name: 'Its number', value: `${known.seq} of its workstation` },
                { name: 'Its hash', value: <span className="hash">{known.hash}</span> },
              ]}
            />
          </section>
        </div>
      }
      right={
        <div className="stack stack--loose">
          <section className="stack">
            <h2>Restore from a backup</h2>
            <p>The newest backup file brings back what was in it. Nothing is overwritten.</p>
            <RestoreForm handle={handle} />
          </section>
          {givesUp ? (
            <div className="group">
              <GiveUpForm missing={missing} onCancel={() => setGivesUp(false)} />
            </div>
          ) : (
            <section className="stack group">
              <h2>No backup?</h2>
              <p>
                First ask whoever looks after this computer: the browser’s profile may have been put aside or
                may be on a copy of the disk. Close all windows of the browser before it is put back.
              </p>
              <div>
                <button onClick={() => setGivesUp(true)} type="button">
                  Go on without them…
                </button>
              </div>
            </section>
          )}
        </div>
      }
    />
  );
}
