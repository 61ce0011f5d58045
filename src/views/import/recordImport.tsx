import { type FormEvent, useRef, useState } from 'react';
import { importEntries } from '../../exchange/importEntries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted } from '../parts/figures.ts';
import { focusFirstInvalid } from '../parts/formFocus.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';
import '../parts/recordForm.css';
import { SaveLine } from '../parts/saveLine.tsx';
import { useSave } from '../parts/useSave.ts';
import { useWriter } from '../parts/useWriter.ts';
import { WrittenBy } from '../parts/writtenBy.tsx';
import type { JudgedFile } from './importFile.ts';
import { stateWords } from './importWords.ts';
import { SaveRefused } from './saveRefused.tsx';
import type { Mapping } from './useImport.ts';

/** The last step: what would be written, by whom, and the one button that writes it, all or nothing. */
export function RecordImport({
  mapping,
  judged,
  onBack,
  onLeave,
  onRecorded,
}: {
  mapping: Mapping;
  judged: JudgedFile;
  onBack: () => void;
  onLeave: () => void;
  onRecorded: (batchId: string) => void;
}) {
  const { logbook } = useLogbook();
  const { id: by, canWrite } = useWriter('supervisor');
  const [tried, setTried] = useState(false);
  const [sealed, setSealed] = useState(0);
  const { saving, save } = useSave();
  const form = useRef<HTMLFormElement>(null);
  const { counts } = judged.judgement;
  const runs = counts.accepted + counts.warning;
  const isSaving = saving.state === 'saving';

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    setSealed(0);
    if (!canWrite) {
      // Only once this is drawn are the fields marked.
      await Promise.resolve();
      focusFirstInvalid(form.current);
      return;
    }
    const taken = new Set(logbook.runs.map(({ id }) => id));
    const written = await save(
      [judged, by],
      () =>
        importEntries(judged.judgement, mapping.file, {
          by,
          newId: () => crypto.randomUUID(),
          isTaken: (runId) => taken.has(runId),
        }),
      setSealed,
    );
    const [batch] = written ?? [];
    if (batch?.kind === 'runs-imported') onRecorded(batch.body.batchId);
  };

  return (
    <div className="stack stack--loose">
      <section className="stack">
        <h2 className="import-file-name">{mapping.file.fileName}</h2>
        <FigureList
          rows={(['accepted', 'warning', 'refused', 'there'] as const).map((state) => ({
            name: stateWords[state],
            value: counts[state],
          }))}
        />
        <SaveRefused fileName={mapping.file.fileName} judged={judged} />
      </section>
      {runs === 0 ? (
        <section className="stack group">
          <p>There is nothing to record: no row is new and in order.</p>
          <WayBack isSaving={false} onBack={onBack} onLeave={onLeave} />
        </section>
      ) : (
        <form
          aria-label="Record the runs"
          className="stack record-form import-record group"
          noValidate
          onSubmit={(event) => void submit(event)}
          ref={form}
        >
          <ReadOnlyNote />
          <p>
            {counted(runs, 'run')} will stand in the logbook as one import, written in one step: all of them
            or none. It can be voided as a whole later.
          </p>
          <WrittenBy only="supervisor" tried={tried} />
          <SaveLine
            action={`Record ${counted(runs, 'run')}`}
            saving={saving}
            trouble={
              isSaving && runs > 500
                ? `${sealed} of ${runs} entries sealed; nothing is stored before all are.`
                : undefined
            }
          />
          <WayBack isSaving={isSaving} onBack={onBack} onLeave={onLeave} />
        </form>
      )}
    </div>
  );
}

/** Open until the writing begins: from then on there is no half-way. */
function WayBack({
  isSaving,
  onBack,
  onLeave,
}: {
  isSaving: boolean;
  onBack: () => void;
  onLeave: () => void;
}) {
  return (
    <div className="line">
      <button disabled={isSaving} onClick={onBack} type="button">
        Back to the columns
      </button>
      <button disabled={isSaving} onClick={onLeave} type="button">
        Leave it
      </button>
    </div>
  );
}
