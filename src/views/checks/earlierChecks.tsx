import { useState } from 'react';
import { Link } from 'wouter';
import type { Logbook, LoggedCheck } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { figuresInWords } from '../checkFigures.ts';
import { useLogbook } from '../logbookContext.tsx';
import '../parts/checkList.css';
import { civilDay, counted, dayAndTime } from '../parts/figures.ts';
import { Struck } from '../parts/struck.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { VoidCheck } from '../parts/voidCheck.tsx';
import { investigationHref } from '../routes.ts';
import { checkWords } from '../scheduleWords.ts';
import type { AskedCheck } from './checkAddress.ts';

const fewest = 20;

/** What was noted of this check before, newest first; what was voided stays, struck through. */
export function EarlierChecks({ asked }: { asked: AskedCheck }) {
  const { logbook } = useLogbook();
  const [voiding, setVoiding] = useState<string | null>(null);
  const [showsAll, setShowsAll] = useState(false);
  const checks = notedBefore(logbook, asked);
  if (checks.length === 0) {
    return (
      <p className="quiet">None noted yet. What is noted stands here, and under Today with its next date.</p>
    );
  }
  const shown = showsAll ? checks : checks.slice(0, fewest);
  return (
    <>
      <ul className="check-list">
        {shown.map((check) => (
          <li key={check.id}>
            <OneCheck check={check} onVoid={() => setVoiding(check.id)} />
            {check.id === voiding ? (
              <VoidCheck
                checkId={check.id}
                onClose={() => setVoiding(null)}
                onSaved={() => setVoiding(null)}
                what={`${checkWords[asked.check]} of ${whenOf(check)}`}
              />
            ) : null}
          </li>
        ))}
      </ul>
      {shown.length < checks.length ? (
        <button onClick={() => setShowsAll(true)} type="button">
          Show {counted(checks.length - shown.length, 'earlier one')}
        </button>
      ) : null}
    </>
  );
}

/** Newest first, voided ones among them. */
export const notedBefore = (
  { checks }: Pick<Logbook, 'checks'>,
  { check, about }: Pick<AskedCheck, 'check' | 'about'>,
): LoggedCheck[] =>
  checks
    .filter(
      ({ entry: { body } }) =>
        body.check === check && body.analyzerId === about.analyzerId && body.syringeId === about.syringeId,
    )
    .sort((one, other) => Date.parse(other.entry.body.doneAt) - Date.parse(one.entry.body.doneAt));

const whenOf = ({ entry }: LoggedCheck) => dayAndTime(entry.body.doneAt, entry.zone);

function OneCheck({ check, onVoid }: { check: LoggedCheck; onVoid: () => void }) {
  const { logbook } = useLogbook();
  const { entry, voided } = check;
  const { outcome, validUntil, note, technologistId, investigates } = entry.body;
  return (
    <>
      <Struck isStruck={voided !== null}>
        {outcome === 'noted' ? 'Noted' : <VerdictBadge word={outcome === 'passed' ? 'pass' : 'fail'} />}
      </Struck>
      <div>
        <p>
          <Struck isStruck={voided !== null}>{whenOf(check)}</Struck>,{' '}
          {initialsIn(logbook.technologists, technologistId)}
        </p>
        {figuresInWords(entry.body).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {note === '' ? null : <p className="check-list__note">{note}</p>}
        {validUntil ? <p>Holds until {civilDay(validUntil)}</p> : null}
        {investigates ? (
          <p>
            <Link href={investigationHref(investigates.runId)}>Part of an investigation</Link>
          </p>
        ) : null}
        {voided ? (
          <p className="quiet small">
            Voided {dayAndTime(voided.at)}, {initialsIn(logbook.technologists, voided.by)}: {voided.reason}
          </p>
        ) : null}
      </div>
      {voided === null ? (
        <button data-weight="line" onClick={onVoid} type="button">
          Void…<span className="for-readers"> the check of {whenOf(check)}</span>
        </button>
      ) : null}
    </>
  );
}
