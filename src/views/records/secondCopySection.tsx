import { useLogbook } from '../logbookContext.tsx';
import { RestoreForm } from '../parts/restoreForm.tsx';
import { BackupForm } from './backupForm.tsx';
import { StandingCopy } from './standingCopy.tsx';

/** Everything by which the records outlive this browser. */
export function SecondCopySection() {
  const { handle, snapshot, demonstration } = useLogbook();
  return (
    <>
      <section className="stack group">
        <h2>Second copy</h2>
        <p>
          A backup file holds every entry as it is stored, with the head of each chain. A changed or missing
          byte shows when it is read; a file that somebody rebuilt with care shows only against a head hash on
          an earlier print or export. Keep it outside this computer: all that is recorded here lies in this
          browser’s profile.
        </p>
        <BackupForm />
        {demonstration ? null : <StandingCopy />}
      </section>
      {demonstration ? null : (
        <section className="stack group">
          <h2>Restore or merge a backup file</h2>
          {snapshot.newer === null ? (
            <>
              <p>
                What is in the file and not yet here is added; nothing is overwritten. So two workstations
                come to the same logbook, and an entry that comes twice is one.
              </p>
              <RestoreForm handle={handle} />
            </>
          ) : (
            <p>
              The logbook holds entries of a newer version: nothing can be added here before that version is
              installed.
            </p>
          )}
        </section>
      )}
    </>
  );
}
