import { useState } from 'react';
import type { EntryOf } from '../../journal/entries.ts';
import { initialsIn } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { type Acceptance, acceptanceOf } from './acceptance.ts';
import type { Desk } from './baselineRuns.ts';
import type { BaselineWords } from './describeBaseline.ts';

/** By whom the baseline was accepted, whether it still is what was accepted, and the form to accept it. */
export function AcceptanceSection({
  desk,
  words,
  onSaved,
}: {
  desk: Desk;
  words: BaselineWords;
  onSaved: (sentence: string) => void;
}) {
  const { logbook } = useLogbook();
  const [isAccepting, setAccepting] = useState(false);
  const acceptance = acceptanceOf(desk, logbook);
  const { analyzerId, ...series } = desk.series;
  const { members } = desk.inForce;
  const { mean, sd } = words;
  const hasLimits = mean !== null && sd !== null && members.length >= desk.policy.minimumSize;
  return (
    <section className="stack group">
      <h2>Accepted</h2>
      <HowItStands acceptance={acceptance} />
      {!hasLimits ? (
        <p className="quiet">
          It can be accepted once there are own limits, from {desk.policy.minimumSize} accepted runs on.
        </p>
      ) : isAccepting ? (
        <ReasonForm
          action="Accept this baseline"
          explanation={`You have looked at its ${counted(members.length, 'run')} and take them for good. The limits come from the runs and do not change by this; what is accepted today is kept to be held against later.`}
          makeEntries={(by, reason) => [
            {
              id: crypto.randomUUID(),
              by,
              kind: 'baseline-accepted',
              body: {
                acceptanceId: crypto.randomUUID(),
                analyzerId,
                series,
                runIds: members.map(({ run }) => run.id),
                mean,
                sd,
                reason,
              },
            },
          ]}
          onCancel={() => setAccepting(false)}
          onSaved={() => {
            setAccepting(false);
            onSaved('Saved: the baseline is accepted.');
          }}
          only="supervisor"
          title="Accept this baseline"
          warning={
            words.hints.some(({ isWarning }) => isWarning) ? (
              <p>Something is to be looked at above: say in the reason what you found.</p>
            ) : null
          }
        />
      ) : acceptance.state === 'same' ? null : (
        <div className="line">
          <button onClick={() => setAccepting(true)} type="button">
            Accept this baseline…
          </button>
        </div>
      )}
    </section>
  );
}

function HowItStands({ acceptance }: { acceptance: Acceptance }) {
  switch (acceptance.state) {
    case 'never':
      return <p>Nobody has accepted it yet. It judges all the same.</p>;
    case 'former':
      return (
        <>
          <p>Nobody has accepted it yet. It judges all the same. The one before was:</p>
          <Accepted entry={acceptance.entry} />
        </>
      );
    case 'same':
      return <Accepted entry={acceptance.entry} />;
    case 'grown':
      return (
        <>
          <Accepted entry={acceptance.entry} />
          <p>{counted(acceptance.added, 'run has', 'runs have')} come into it since.</p>
        </>
      );
    case 'changed':
      return (
        <>
          <Accepted entry={acceptance.entry} />
          <Notice title="It is not what was accepted any more." tone="warn">
            <ul className="plain-list">
              {acceptance.changes.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </Notice>
        </>
      );
  }
}

function Accepted({ entry: { by, at, zone, body } }: { entry: EntryOf<'baseline-accepted'> }) {
  const { logbook } = useLogbook();
  return (
    <p>
      By {initialsIn(logbook.technologists, by)}, {dayAndTime(at, zone)}, of{' '}
      {counted(body.runIds.length, 'run')}: {body.reason}
    </p>
  );
}
