import { useState } from 'react';
import { Link } from 'wouter';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { startBaseline } from '../newBaseline.ts';
import { ChoiceField } from '../parts/field.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { eventWords } from '../parts/words.ts';
import { useFailures } from '../useFailures.ts';
import type { Desk } from './baselineRuns.ts';

const fromNow = 'now';

/** A new baseline from now on, or from an event that moved the mean. */
export function StartEpoch({
  desk: {
    series: { analyzerId },
    inForce,
  },
  onSaved,
}: {
  desk: Desk;
  onSaved: (sentence: string) => void;
}) {
  const { logbook } = useLogbook();
  const [isOpen, setOpen] = useState(false);
  const [from, setFrom] = useState<string>(fromNow);
  const isFailing = openFailures(useFailures()).some((failure) => failure.analyzerId === analyzerId);
  // An event before the baseline in force would begin an epoch that ends where this one began.
  const events = logbook.events
    .filter(({ body }) => body.analyzerId === analyzerId)
    .filter(({ body }) => inForce.start === null || body.happenedAt > inForce.start.body.from)
    .sort((one, other) => Date.parse(other.body.happenedAt) - Date.parse(one.body.happenedAt));
  const event = events.find(({ id }) => id === from);
  const since = event
    ? logbook.runs.filter(
        ({ body, voided }) =>
          body.analyzerId === analyzerId && voided === null && body.madeAt >= event.body.happenedAt,
      ).length
    : 0;
  return (
    <section className="stack group">
      <h2>Begin anew</h2>
      {isFailing ? (
        <p>
          Not while a failure is open on this analyzer: a new baseline would put it aside without a word.{' '}
          <Link href="/review">Close it under Review</Link> first.
        </p>
      ) : isOpen ? (
        <>
          <ChoiceField
            choices={[
              { value: fromNow, label: 'Now' },
              ...events.map(({ id, zone, body }) => ({
                value: id,
                label: `${eventWords[body.type]}, ${dayAndTime(body.happenedAt, zone)}`,
              })),
            ]}
            hint={event?.body.description}
            label="From"
            onChoice={setFrom}
            value={from}
          />
          <ReasonForm
            action="Start a new baseline"
            explanation={`${
              event
                ? `The ${counted(since, 'run')} of this analyzer made since then begin the new baseline.`
                : 'The next run of this analyzer begins the new baseline.'
            } It holds for every series of the analyzer, VA and DLCO, by both routes: no mean and no pattern reaches across. The verdicts of the day stay.`}
            makeEntries={(by, reason) =>
              startBaseline(analyzerId, event?.body.happenedAt ?? new Date().toISOString(), reason, by)
            }
            onCancel={() => setOpen(false)}
            onSaved={() => {
              setOpen(false);
              setFrom(fromNow);
              onSaved('Saved: a new baseline has begun.');
            }}
            only="supervisor"
            title="Start a new baseline"
          />
        </>
      ) : (
        <div className="line">
          <button onClick={() => setOpen(true)} type="button">
            Start a new baseline…
          </button>
        </div>
      )}
    </section>
  );
}
