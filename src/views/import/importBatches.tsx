import { useState } from 'react';
import type { ImportBatch } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { ReasonForm } from '../parts/reasonForm.tsx';

/** What was imported, newest first. An import is taken back by voiding it; nothing of it is erased. */
export function ImportBatches() {
  const { logbook } = useLogbook();
  const batches = [...logbook.imports.values()].toReversed();
  const [voiding, setVoiding] = useState<string | null>(null);
  return (
    <section className="stack group">
      <h2>Imports so far</h2>
      {batches.length === 0 ? <p className="quiet">None.</p> : null}
      {batches.map((batch) => (
        <article className="stack import-batch" key={batch.id}>
          <BatchLine batch={batch} />
          {batch.voided !== null ? null : voiding === batch.id ? (
            <VoidImport batch={batch} onClose={() => setVoiding(null)} />
          ) : (
            <div>
              <button onClick={() => setVoiding(batch.id)} type="button">
                Void this import…
              </button>
            </div>
          )}
        </article>
      ))}
    </section>
  );
}

function BatchLine({ batch: { entry, voided } }: { batch: ImportBatch }) {
  const { logbook } = useLogbook();
  const initials = (id: string) => logbook.technologists.get(id)?.initials ?? 'unknown';
  const { fileName, accepted, refused } = entry.body;
  const what = (
    <>
      <strong className="import-file-name">{fileName}</strong>: {counted(accepted, 'run')}
      {refused > 0 ? `, ${counted(refused, 'row')} refused` : ''}
    </>
  );
  return (
    <>
      <p>{voided === null ? what : <s>{what}</s>}</p>
      <p className="quiet small">
        {dayAndTime(entry.at, entry.zone)}, {initials(entry.by)}
        {voided === null
          ? ''
          : `; voided ${dayAndTime(voided.at)} by ${initials(voided.by)}: ${voided.reason}`}
      </p>
    </>
  );
}

function VoidImport({ batch: { id, entry }, onClose }: { batch: ImportBatch; onClose: () => void }) {
  return (
    <ReasonForm
      action="Void import"
      explanation={`All ${counted(entry.body.accepted, 'run')} of this import leave every mean and stay visible, struck through. The file can be imported again afterwards.`}
      makeEntries={(by, reason) => [
        { id: crypto.randomUUID(), by, kind: 'import-voided', body: { batchId: id, reason } },
      ]}
      onCancel={onClose}
      onSaved={onClose}
      only="supervisor"
      title={`Void the import of ${entry.body.fileName}`}
    />
  );
}
