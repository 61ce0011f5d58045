import { Link } from 'wouter';
import type { LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { controlHref, signedHref, signOffHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { runHref } from '../routes.ts';
import { type ControlChange, type RunChange, type SignOff, signOffOf } from '../signedOff.ts';
import { useSignedOff } from '../useSignedOff.ts';
import { counted, day } from './figures.ts';
import { Notice } from './notice.tsx';

type Change = RunChange | ControlChange;

function changeWords(change: Change): string {
  switch (change.kind) {
    case 'run-amended':
    case 'control-amended':
      return 'amended';
    case 'run-voided':
    case 'control-voided':
      return 'voided';
    case 'import-voided':
      return 'voided with its import';
    case 'run-set-aside':
    case 'control-set-aside':
      return change.body.isSetAside ? 'set aside' : 'taken back in';
  }
}

const fewest = 8;

interface ChangedLine {
  key: string;
  href: string;
  analyzerId: string;
  madeAt: string;
  zone: string;
  change: Change;
  after: SignOff;
}

/** Of runs and of controls, until the change is signed off too, in the order in which they were made. */
function useUnsigned(): readonly ChangedLine[] {
  const { changes, controlChanges } = useSignedOff();
  const ofRuns = changes
    .filter(({ again }) => again === null)
    .map(({ run: { id, body, entry }, change, after }) => {
      const { analyzerId, madeAt } = body;
      return {
        key: `${id} ${change.hash}`,
        href: runHref(id),
        analyzerId,
        madeAt,
        zone: entry.zone,
        change,
        after,
      };
    });
  const ofControls = controlChanges
    .filter(({ again }) => again === null)
    .map(({ control: { id, control, entry }, change, after }) => {
      const { analyzerId, madeAt } = control;
      return {
        key: `${id} ${change.hash}`,
        href: controlHref(id),
        analyzerId,
        madeAt,
        zone: entry.zone,
        change,
        after,
      };
    });
  return [...ofRuns, ...ofControls].sort((one, other) => Date.parse(one.madeAt) - Date.parse(other.madeAt));
}

/** Runs and controls that lay under a sign-off and were changed since; nothing where there are none. */
export function ChangedAfterSignOff({ isWorklistHere = false }: { isWorklistHere?: boolean }) {
  const { logbook } = useLogbook();
  const unsigned = useUnsigned();
  if (unsigned.length === 0) return null;
  return (
    <Notice title={`${counted(unsigned.length, 'change')} to what was signed off`} tone="warn">
      <ul className="plain-list">
        {unsigned.slice(-fewest).map(({ key, href, analyzerId, madeAt, zone, change, after }) => (
          <li key={key}>
            <Link href={href}>
              {logbook.analyzers.get(analyzerId)?.description.label ?? 'Unknown analyzer'},{' '}
              {day(madeAt, zone)}
            </Link>
            : {changeWords(change)} after the sign-off of {day(after.at, after.zone)}
          </li>
        ))}
      </ul>
      {unsigned.length > fewest ? <p>The {fewest} newest stand here.</p> : null}
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
  const { changes } = useSignedOff();
  return <SignOffOf changes={changes.filter((one) => one.run.id === run.id)} made={run} />;
}

/** The same of a control. */
export function SignOffOfControl({ logged }: { logged: LoggedControl }) {
  const { controlChanges } = useSignedOff();
  return (
    <SignOffOf changes={controlChanges.filter(({ control }) => control.id === logged.id)} made={logged} />
  );
}

function SignOffOf({
  made,
  changes,
}: {
  made: LoggedRun | LoggedControl;
  changes: readonly { change: Change; after: SignOff; again: SignOff | null }[];
}) {
  const { logbook } = useLogbook();
  const { coverage } = useSignedOff();
  const signOff = signOffOf(coverage, made);
  if (signOff === null) return null;
  return (
    <>
      <p className="quiet">
        <Link href={signedHref(signOff.body.signOffId)}>Signed off on {day(signOff.at, signOff.zone)}</Link>{' '}
        by {initialsIn(logbook.technologists, signOff.by)}
      </p>
      {changes.map(({ change, after, again }) => (
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
