import { type ReactNode, useId } from 'react';
import type { LogbookHandle } from '../../store/openLogbook.ts';
import { storageAdvice } from '../storageAdvice.ts';
import { buildRestorePreview } from './buildRestorePreview.ts';
import { ChainEnds } from './chainEnds.tsx';
import { FigureList } from './figureList.tsx';
import { counted } from './figures.ts';
import { Notice } from './notice.tsx';
import type { ReadBackupFile } from './readBackupFile.ts';
import { type JudgedBackup, type Restoring, useRestore } from './useRestore.ts';

/** So many sentences of one kind are shown; a file can hold any number of wrong lines. */
const mostSentences = 50;

/** Picks a backup file, shows what is in it, and adds what is new. For an empty logbook and for a used one alike. */
export function RestoreForm({ handle, read }: { handle: LogbookHandle; read?: ReadBackupFile }) {
  const { restoring, pick, leave, add } = useRestore(handle, read);
  const fieldId = useId();
  const isAdding = restoring.state === 'adding';
  return (
    <div className="stack">
      <div className="field">
        <label className="field__label" htmlFor={fieldId}>
          Backup file
        </label>
        <div className="field__control">
          <input
            accept=".jsonl,.json,.txt"
            disabled={isAdding}
            id={fieldId}
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file) void pick(file);
              // The same file can be picked again, after it was repaired or copied anew.
              target.value = '';
            }}
            type="file"
          />
        </div>
      </div>
      <Outcome onAdd={add} onLeave={leave} restoring={restoring} />
    </div>
  );
}

function Outcome({
  restoring,
  onAdd,
  onLeave,
}: {
  restoring: Restoring;
  onAdd: (backup: JudgedBackup) => Promise<void>;
  onLeave: () => void;
}) {
  switch (restoring.state) {
    case 'idle':
      return null;
    case 'reading':
      return <Reading onLeave={onLeave} restoring={restoring} />;
    case 'refused':
      return (
        <Notice title={`Nothing was taken from ${restoring.fileName}.`} tone="fail" urgent>
          <p>{restoring.sentence}</p>
        </Notice>
      );
    case 'judged':
      return (
        <Preview backup={restoring.backup} onAdd={onAdd} onLeave={onLeave}>
          {restoring.problem === null ? null : (
            <Notice
              title={`Nothing was added. ${storageAdvice(restoring.problem).title}.`}
              tone="fail"
              urgent
            >
              <p>{storageAdvice(restoring.problem).what}</p>
            </Notice>
          )}
        </Preview>
      );
    case 'adding':
      return <Preview backup={restoring.backup} isAdding onAdd={onAdd} onLeave={onLeave} />;
    case 'done':
      return (
        <Notice
          title={`${counted(restoring.added, 'entry', 'entries')} added from ${restoring.fileName}`}
          tone="pass"
        >
          <p>
            {restoring.alreadyThere === 0
              ? 'None of them was here before.'
              : `${counted(restoring.alreadyThere, 'entry was', 'entries were')} here already.`}
          </p>
        </Notice>
      );
  }
}

function Reading({
  restoring: { fileName, done, total },
  onLeave,
}: {
  restoring: Extract<Restoring, { state: 'reading' }>;
  onLeave: () => void;
}) {
  return (
    <div className="line">
      <span role="status">
        Reading {fileName}
        {total === 0 ? '…' : `: ${done} of ${total} lines`}
      </span>
      <button onClick={onLeave} type="button">
        Cancel
      </button>
    </div>
  );
}

function Preview({
  backup,
  isAdding = false,
  onAdd,
  onLeave,
  children,
}: {
  backup: JudgedBackup;
  isAdding?: boolean;
  onAdd: (backup: JudgedBackup) => Promise<void>;
  onLeave: () => void;
  children?: ReactNode;
}) {
  const titleId = useId();
  const { figures, cautions, conflicts, problems, heads, action } = buildRestorePreview(backup);
  return (
    <section aria-labelledby={titleId} className="stack group">
      <h3 id={titleId}>In {backup.fileName}</h3>
      <FigureList rows={figures} />
      {cautions.length === 0 ? null : (
        <Notice title="Before you add them" tone="warn">
          {cautions.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </Notice>
      )}
      <Sentences sentences={conflicts} title={counted(conflicts.length, 'conflict')} />
      <Sentences
        sentences={problems}
        title={counted(problems.length, 'fault in the file', 'faults in the file')}
      />
      <Heads heads={heads} />
      {children}
      {action === null ? (
        <p role="status">Everything in it is here already. There is nothing to add.</p>
      ) : (
        <p className="quiet">Nothing is written yet, and nothing that is here is changed by it.</p>
      )}
      <div className="line">
        {action === null ? null : (
          <button
            aria-disabled={isAdding}
            data-weight="main"
            onClick={() => {
              if (!isAdding) void onAdd(backup);
            }}
            type="button"
          >
            {isAdding ? 'Adding…' : action}
          </button>
        )}
        <button disabled={isAdding} onClick={onLeave} type="button">
          Leave it
        </button>
      </div>
    </section>
  );
}

function Sentences({ title, sentences }: { title: string; sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  const more = sentences.length - mostSentences;
  return (
    <details className="stack" open={sentences.length <= 5}>
      <summary>{title}</summary>
      <ul className="plain-list small">
        {sentences.slice(0, mostSentences).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
        {more > 0 ? <li>and {more} more</li> : null}
      </ul>
    </details>
  );
}

function Heads({ heads }: { heads: ReturnType<typeof buildRestorePreview>['heads'] }) {
  if (heads.length === 0) return null;
  return (
    <details className="stack">
      <summary>{counted(heads.length, 'chain')} with its last entry, to compare with a print</summary>
      <ChainEnds chains={heads.slice(0, mostSentences)} />
    </details>
  );
}
