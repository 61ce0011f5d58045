import { useState } from 'react';
import type { SignableDraft } from '../../journal/signature.ts';
import { closedFrom, type Failure, seriesKey } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, TextAreaField, TickField } from './field.tsx';
import { counted, day } from './figures.ts';
import { RecordForm, type Submission } from './recordForm.tsx';
import { SaveLine } from './saveLine.tsx';
import { SigningFields } from './signing.tsx';
import { useSave } from './useSave.ts';
import { useSigning } from './useSigning.ts';
import { useWriter } from './useWriter.ts';
import { quantityWords, routeWords } from './words.ts';
import { WrittenBy } from './writtenBy.tsx';

const keyOf = ({ analyzerId, series }: Failure) => seriesKey(analyzerId, series);

type From = 'now' | 'then';
const fromWords = [
  { value: 'then', label: 'after the run that opened it' },
  { value: 'now', label: 'from now on' },
] as const;

/**
 * Closes failures of imported runs together, with one reason: whoever imports years of history does not find out in
 * writing, one by one, what was found out years ago.
 */
export function CloseTogether({ failures }: { failures: readonly Failure[] }) {
  const { logbook } = useLogbook();
  const { id: by, canWrite } = useWriter('supervisor');
  const signing = useSigning(by, canWrite);
  const [left, setLeft] = useState<readonly string[]>([]);
  const [from, setFrom] = useState<From>('then');
  const [text, setText] = useState('');
  const [tried, setTried] = useState(false);
  const { saving, save } = useSave();
  const reason = text.trim();
  const chosen = failures.filter((failure) => !left.includes(keyOf(failure)));

  const submit = async (): Promise<Submission> => {
    setTried(true);
    const sign = signing.take();
    if (reason === '' || chosen.length === 0 || sign === null) return 'stopped';
    const closed = await save([chosen.map(keyOf).join(), from, reason, by, signing.revision], () =>
      sign(closures(chosen, { by, reason, from })),
    );
    if (closed) signing.clear();
    return 'tried';
  };

  return (
    <RecordForm heading="h3" onSubmit={submit} opens={false} title="Close them together">
      <p>
        While a failure is open no run enters a mean. These were opened by imported runs; one reason closes
        all that are ticked. They stay in the logbook.
      </p>
      {failures.map((failure) => {
        const { analyzerId, series, openedBy, runs } = failure;
        const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'an unknown analyzer';
        return (
          <TickField
            checked={!left.includes(keyOf(failure))}
            key={keyOf(failure)}
            label={`${label}, ${quantityWords[series.quantity]}, ${routeWords[series.route].toLowerCase()}: opened ${day(openedBy.body.madeAt, openedBy.entry.zone)}, ${counted(runs.length, 'run')}`}
            onTick={(ticked) =>
              setLeft(ticked ? left.filter((key) => key !== keyOf(failure)) : [...left, keyOf(failure)])
            }
          />
        );
      })}
      <ChoiceField
        choices={fromWords}
        hint={
          from === 'then'
            ? 'The runs after it are judged afresh. One of them may open another failure, which then stands here.'
            : 'All runs up to now stay in the failure, and out of every mean.'
        }
        label="Judged afresh"
        onChoice={setFrom}
        value={from}
      />
      <TextAreaField
        error={
          tried && reason === ''
            ? 'Say why they may be closed: how it was dealt with at the time.'
            : undefined
        }
        label="Why they may be closed"
        onText={setText}
        required
        value={text}
      />
      <WrittenBy only="supervisor" tried={tried} />
      <SigningFields signing={signing} />
      <SaveLine
        action={`Close ${counted(chosen.length, 'failure')}`}
        saving={saving}
        trouble={troubleOf(tried, chosen.length, reason === '' || !canWrite || signing.isMarked)}
      />
    </RecordForm>
  );
}

function troubleOf(tried: boolean, ticked: number, isMarked: boolean): string | undefined {
  if (!tried) return undefined;
  if (ticked === 0) return 'Tick the failures that are to be closed.';
  return isMarked ? 'Not closed yet: see the marked fields.' : undefined;
}

/** One entry for each analyzer, closing its failures at one time. */
function closures(
  failures: readonly Failure[],
  { by, reason, from }: { by: string; reason: string; from: From },
): SignableDraft[] {
  const analyzers = new Set(failures.map(({ analyzerId }) => analyzerId));
  return [...analyzers].map((analyzerId) => {
    const ofAnalyzer = failures.filter((failure) => failure.analyzerId === analyzerId);
    return {
      id: crypto.randomUUID(),
      by,
      kind: 'failure-closed',
      body: {
        closureId: crypto.randomUUID(),
        analyzerId,
        failures: ofAnalyzer.map(({ series, openedBy }) => ({ ...series, openedByRunId: openedBy.id })),
        // Instants are compared as texts: an empty one lies before all, and leaves the last of what is closed.
        closedAt: closedFrom(ofAnalyzer, from === 'now' ? new Date().toISOString() : ''),
        reason,
        correctiveAction: '',
        signature: null,
      },
    };
  });
}
