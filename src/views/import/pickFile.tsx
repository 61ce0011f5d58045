import { useId } from 'react';
import { importLimits } from '../../exchange/importText.ts';
import { fileSize } from '../parts/fileSize.ts';
import { ReadOnlyNote } from '../parts/readOnlyNote.tsx';

export function PickFile({ onPick }: { onPick: (file: File) => void }) {
  const id = useId();
  return (
    <section className="stack">
      <ReadOnlyNote />
      <p>
        Runs of former years come from a spreadsheet that is saved as CSV. You say what its columns are and
        see every row judged; nothing is written before you press the last button.
      </p>
      <div className="field">
        <label className="field__label" htmlFor={id}>
          File with runs
        </label>
        <div className="field__control">
          <input
            accept=".csv,.tsv,.txt,text/csv"
            aria-describedby={`${id}-hint`}
            id={id}
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file) onPick(file);
              // The same file can be picked again, after it was put right.
              target.value = '';
            }}
            type="file"
          />
        </div>
        <div className="field__message" id={`${id}-hint`}>
          Up to {fileSize(importLimits.fileBytes)} and {importLimits.rows} rows. It is read on this computer
          and sent nowhere.
        </div>
      </div>
    </section>
  );
}
