import { useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { controlsOfSeries } from '../charting/controlSeries.ts';
import { type ControlFailure, controlSeriesKey } from '../controlAssessments.ts';
import { controlFailureHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TextAreaField, TickField } from '../parts/field.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { SigningFields } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';
import { useSigning } from '../parts/useSigning.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { useControlAssessments } from '../useControlAssessments.ts';
import { controlClosingEntry, controlsClosedFrom, readControlClosing } from './controlClosing.ts';
import { itemsOf, nouns, passingSince, seriesInWords } from './controlFailureWords.ts';

const keyOf = ({ analyzerId, series }: ControlFailure) => controlSeriesKey(analyzerId, series);

/** An entry closes as many together, and no more. */
const mostTogether = 8;

/** A supervisor closes a failure of controls, and with it others of the analyzer that have the same cause. */
export function ControlCloseForm({
  failure,
  failures,
}: {
  failure: ControlFailure;
  failures: readonly ControlFailure[];
}) {
  const [, goTo] = useLocation();
  const { logbook } = useLogbook();
  const controls = useControlAssessments();
  const { id: by, canWrite } = useWriter('supervisor');
  const signing = useSigning(by, canWrite);
  const [draft, setDraft] = useState({ cause: '', correctiveAction: '', lookBack: '', withoutProof: '' });
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const others = useMemo(
    () =>
      failures
        .filter(
          (other) => other.ended === null && other.analyzerId === failure.analyzerId && other !== failure,
        )
        .slice(0, mostTogether - 1),
    [failure, failures],
  );
  const closed = [failure, ...others.filter((other) => ticked.includes(keyOf(other)))];
  const provenKeys = useMemo(
    () =>
      [failure, ...others]
        .filter(
          (one) => passingSince(itemsOf(one, controlsOfSeries(logbook, controls, one).items)).length > 0,
        )
        .map(keyOf),
    [failure, others, logbook, controls],
  );
  const unproven = closed.filter((one) => !provenKeys.includes(keyOf(one)));
  const reading = readControlClosing(draft, unproven.length === 0);
  const errors = tried && !reading.ok ? reading.errors : {};
  const change = (changes: Partial<typeof draft>) => setDraft({ ...draft, ...changes });
  const { one } = nouns[failure.series.kind];

  const submit = async (): Promise<Submission> => {
    setTried(true);
    const sign = signing.take();
    if (!reading.ok || sign === null) return 'stopped';
    // The bare address shows the first failure that is open: another one, as soon as this one is closed.
    goTo(controlFailureHref(failure.openedBy.id, failure.series), { replace: true });
    const closedAt = controlsClosedFrom(closed, new Date().toISOString());
    const written = await save([draft, closed.map(keyOf).join(), by, signing.revision], () =>
      sign([controlClosingEntry(closed, reading.description, { by, closedAt })]),
    );
    if (written) signing.clear();
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={false} title="Close it">
      <p>
        From then on the series is judged afresh: patterns start anew, its mean stays. The failure and all its{' '}
        {nouns[failure.series.kind].many} stay in the logbook.
      </p>
      {failure.series.kind === 'biological' ? (
        <p className="quiet">
          Was it the person and not the analyzer? Then a closure is not enough: the next test fails again.
          Exclude the person under{' '}
          <Link href={`/equipment/subject/${failure.series.subjectId}`}>Equipment</Link> from the day it
          began, or set single tests aside on their own pages.
        </p>
      ) : null}
      <TextAreaField
        error={errors.cause}
        label="What the cause was"
        onText={(cause) => change({ cause })}
        required
        value={draft.cause}
      />
      <TextAreaField
        error={errors.correctiveAction}
        label="What was done"
        onText={(correctiveAction) => change({ correctiveAction })}
        required
        value={draft.correctiveAction}
      />
      <TextAreaField
        error={errors.lookBack}
        hint="How many were tested, how many affected, what was decided. No names, dates of birth or record numbers."
        label="Patients tested meanwhile"
        onText={(lookBack) => change({ lookBack })}
        required
        value={draft.lookBack}
      />
      {others.map((other) => (
        <TickField
          checked={ticked.includes(keyOf(other))}
          key={keyOf(other)}
          label={`Close the failure of ${seriesInWords(other.series, logbook)} with it`}
          onTick={(isTicked) =>
            setTicked(isTicked ? [...ticked, keyOf(other)] : ticked.filter((key) => key !== keyOf(other)))
          }
        />
      ))}
      {unproven.length > 0 ? (
        <TextAreaField
          error={errors.withoutProof}
          hint={`Better is a ${one} that passes: enter one first. This is written down with what was done.`}
          label={`Why without a passing ${one} of ${unproven.map(({ series }) => seriesInWords(series, logbook)).join(', ')}`}
          onText={(withoutProof) => change({ withoutProof })}
          required
          value={draft.withoutProof}
        />
      ) : null}
      <WrittenBy only="supervisor" tried={tried} />
      <SigningFields signing={signing} />
      <SaveLine
        action="Close failure"
        saving={saving}
        trouble={
          tried && (!reading.ok || !canWrite || signing.isMarked)
            ? 'Not closed yet: see the marked fields.'
            : undefined
        }
      />
    </RecordForm>
  );
}
