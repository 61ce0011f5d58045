import { useState } from 'react';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { makeBackup } from '../makeBackup.ts';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { backupFileName, saveFile } from '../parts/saveFile.ts';
import { useSecondCopy } from '../secondCopy.tsx';

/** Every entry in one file, handed to the browser's downloads. */
export function BackupForm() {
  const { handle, snapshot } = useLogbook();
  const { copy } = useSecondCopy();
  const [isMaking, setIsMaking] = useState(false);
  const [outcome, setOutcome] = useState<
    { fileName: string; rows: number; unwritable: number } | { failed: string } | null
  >(null);
  const count = snapshot.rawRows.length;

  const save = async () => {
    if (isMaking) return;
    setIsMaking(true);
    try {
      const rows = snapshot.rawRows;
      const { header, bytes } = await makeBackup(handle, rows);
      const fileName = backupFileName(Date.now(), header.rows);
      saveFile(bytes, fileName, 'application/jsonl');
      setOutcome({ fileName, rows: header.rows, unwritable: header.unwritable });
      await copy?.noteBackup(rows);
    } catch (error) {
      setOutcome({ failed: messageOf(error) });
    } finally {
      setIsMaking(false);
    }
  };

  return (
    <>
      <div className="line">
        <button disabled={count === 0} onClick={() => void save()} type="button">
          {isMaking ? 'Writing…' : `Save a backup file of ${counted(count, 'entry', 'entries')}`}
        </button>
        {count === 0 ? <span className="quiet">There is nothing to save yet.</span> : null}
      </div>
      {outcome === null ? null : 'failed' in outcome ? (
        <Notice title="The file could not be made." tone="fail" urgent>
          <p>{outcome.failed}</p>
        </Notice>
      ) : (
        <Notice
          title={`${counted(outcome.rows, 'entry', 'entries')} written to ${outcome.fileName}`}
          tone={outcome.unwritable === 0 ? 'pass' : 'warn'}
        >
          <p>The browser has put it where it keeps downloads. Move it to another disk or the network.</p>
          {outcome.unwritable === 0 ? null : (
            <p>
              {counted(outcome.unwritable, 'damaged row has', 'damaged rows have')} no written form and could
              not go along.
            </p>
          )}
        </Notice>
      )}
    </>
  );
}
