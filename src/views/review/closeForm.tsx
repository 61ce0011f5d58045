import { useState } from 'react';
import { useLocation } from 'wouter';
import { closedFrom, type Failure, seriesKey } from '../failures.ts';
import { TextAreaField, TickField } from '../parts/field.tsx';
import { RecordForm, type Submission } from '../parts/recordForm.tsx';
import { SaveLine } from '../parts/saveLine.tsx';
import { SigningFields } from '../parts/signing.tsx';
import { useSave } from '../parts/useSave.ts';
import { useSigning } from '../parts/useSigning.ts';
import { useWriter } from '../parts/useWriter.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import { failureAddress } from './failureAddress.ts';

const keyOf = ({ analyzerId, series }: Failure) => seriesKey(analyzerId, series);

/** A supervisor closes a failure, and with it any other that the same fault opened on the same analyzer. */
export function CloseForm({
  failure,
  openOfAnalyzer,
  analyzerLabel,
}: {
  failure: Failure;
  openOfAnalyzer: readonly Failure[];
  analyzerLabel: string;
}) {
  const [, goTo] = useLocation();
  const { id: by, canWrite } = useWriter('supervisor');
  const signing = useSigning(by, canWrite);
  const others = openOfAnalyzer.filter((other) => keyOf(other) !== keyOf(failure));
  const [typed, setTyped] = useState(() => ({
    correctiveAction: '',
    reason: '',
    withThese: [] as readonly string[],
  }));
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reason = typed.reason.trim();

  const submit = async (): Promise<Submission> => {
    setTried(true);
    const sign = signing.take();
    if (reason === '' || sign === null) return 'stopped';
    // The bare address shows the first failure that is open: another one, as soon as this one is closed.
    goTo(failureAddress(failure), { replace: true });
    const closed = [failure, ...others.filter((other) => typed.withThese.includes(keyOf(other)))];
    const written = await save([typed, by, signing.revision], () =>
      sign([
        {
          id: crypto.randomUUID(),
          by,
          kind: 'failure-closed',
          body: {
            closureId: crypto.randomUUID(),
            analyzerId: failure.analyzerId,
            failures: closed.map(({ series, openedBy }) => ({ ...series, openedByRunId: openedBy.id })),
            closedAt: closedFrom(closed, new Date().toISOString()),
            reason,
            correctiveAction: typed.correctiveAction.trim(),
            signature: null,
          },
        },
      ]),
    );
    if (written) signing.clear();
    return 'tried';
  };

  return (
    <RecordForm onSubmit={submit} opens={false} title="Close it">
      <p>
        From then on the runs of {analyzerLabel} are judged afresh: patterns start anew, the baseline stays.
        The failure and all its runs stay in the logbook.
      </p>
      <TextAreaField
        label="What was done"
        onText={(correctiveAction) => setTyped({ ...typed, correctiveAction })}
        value={typed.correctiveAction}
      />
      <TextAreaField
        error={
          tried && reason === ''
            ? 'Say why the analyzer can be trusted again: the run that proves it, for example.'
            : undefined
        }
        label="Why it may be closed"
        onText={(text) => setTyped({ ...typed, reason: text })}
        value={typed.reason}
      />
      {others.map((other) => (
        <TickField
          checked={typed.withThese.includes(keyOf(other))}
          key={keyOf(other)}
          label={`Close ${quantityWords[other.series.quantity]}, ${routeWords[other.series.route].toLowerCase()}, with it`}
          onTick={(ticked) =>
            setTyped({
              ...typed,
              withThese: ticked
                ? [...typed.withThese, keyOf(other)]
                : typed.withThese.filter((key) => key !== keyOf(other)),
            })
          }
        />
      ))}
      <WrittenBy only="supervisor" tried={tried} />
      <SigningFields signing={signing} />
      <SaveLine
        action="Close failure"
        saving={saving}
        trouble={
          tried && (reason === '' || !canWrite || signing.isMarked)
            ? 'Not closed yet: see the marked fields.'
            : undefined
        }
      />
      <p className="quiet small">
        Patients tested since the last good run may have to be looked at again. Local procedure and the
        responsible person decide.
      </p>
    </RecordForm>
  );
}
