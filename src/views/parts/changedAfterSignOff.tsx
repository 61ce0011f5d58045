import { Link } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { signedHref, signOffHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { runHref } from '../routes.ts';
import { type RunChange, signOffOfRun } from '../signedOff.ts';
import { useSignedOff } from '../useSignedOff.ts';
import { counted, day } from './figures.ts';
import { Notice } from './notice.tsx';

function changeWords(change: RunChange): string {
  switch (change.kind) {
    case 'run-amended':
      return 'amended';
    case 'run-voided':
      return 'voided';
    case 'import-voided':
      return 'voided with its import';
    case 'run-set-aside':
      return change.body.isSetAside ? 'set aside' : 'taken back in';
  }
}

const fewest = 8;

/** Runs that lay under a sign-off and were changed since, until the change is signed off too; nothing where there are none. */
export function ChangedAfterSignOff({ isWorklistHere = false }: { isWorklistHere?: boolean }) {
  const { logbook } = useLogbook();
  const unsigned = useSignedOff().changes.filter(({ again }) => again === null);
  if (unsigned.length === 0) return null;
  return (
    <Notice title={`${counted(unsigned.length, 'change')} to what was signed off`} tone="warn">
      <ul className="plain-list">
        {unsigned.slice(-fewest).map(({ run, change, after }) => (
          <li key={`${run.id} ${change.hash}`}>
            <Link href={runHref(run.id)}>
              {logbook.analyzers.get(run.body.analyzerId)?.description.label ?? 'Unknown analyzer'},{' '}
              {day(run.body.madeAt, run.entry.zone)}
            </Link>
            : {changeWords(change)} after the sign-off of {day(after.at, after.zone)}
          </li>
        ))}
      </ul>
      {unsigned.length > fewest ? <p>The {fewest} newest runs stand here.</p> : null}
      {isWorklistHere ? (
        <p>They are among what is new.</p>
      ) : (
        <p>
          They stand in the worklist of the next <Link href={signOffHref()}>sign-off</Link>.
        </p>
      )}
    </Notice>
  );
}

/** Under which sign-off a run lies, and whether it still says what was signed. */
export function SignOffOfRun({ run }: { run: LoggedRun }) {
  const { logbook } = useLogbook();
  const { coverage, changes } = useSignedOff();
  const signOff = signOffOfRun(coverage, run);
  if (signOff === null) return null;
  const own = changes.filter((one) => one.run.id === run.id);
  return (
    <>
      <p className="quiet">
        <Link href={signedHref(signOff.body.signOffId)}>Signed off on {day(signOff.at, signOff.zone)}</Link>{' '}
        by {initialsIn(logbook.technologists, signOff.by)}
      </p>
      {own.map(({ change, after, again }) => (
        <Notice
          key={change.hash}
          title={`${sentence(changeWords(change))} after the sign-off of ${day(after.at, after.zone)}`}
          tone={again === null ? 'warn' : 'quiet'}
        >
          <p>
            {again === null
              ? 'No sign-off covers the change yet.'
              : `The sign-off of ${day(again.at, again.zone)} covers the change.`}
          </p>
        </Notice>
      ))}
    </>
  );
}

const sentence = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
