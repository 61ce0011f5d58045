import { Link } from 'wouter';
import type { CivilDate } from '../../core/index.ts';
import { initialsIn } from '../amendments.ts';
import { controlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import '../parts/checkList.css';
import { VoidCheck } from '../parts/voidCheck.tsx';
import { checkWords, dayByNameAt, outcomeWords } from '../scheduleWords.ts';
import type { CheckLine } from './buildToday.ts';
import { CheckAction } from './checkAction.tsx';
import { StateMark } from './stateMark.tsx';

/** Each check with its date, when it was last done and by whom, and where it is noted. */
export function CheckList({
  lines,
  today,
  namesThing,
  voiding,
  onVoiding,
}: {
  lines: readonly CheckLine[];
  today: CivilDate;
  /** Whether each line says what it is about: not where one heading does for all. */
  namesThing: boolean;
  /** Id of the check whose void is being written. */
  voiding: string | null;
  onVoiding: (checkId: string | null) => void;
}) {
  return (
    <ul className="check-list">
      {lines.map((line) => {
        const { due, name, sentence, state } = line;
        const { check, about, last } = due;
        return (
          <li key={`${check} ${about.id}`}>
            <StateMark state={state} />
            <div>
              <p>
                {about.kind === 'cylinder' || (namesThing && about.kind !== 'laboratory') ? (
                  <strong>{name}: </strong>
                ) : null}
                {sentence}
              </p>
              <LastDone line={line} onVoid={onVoiding} today={today} />
            </div>
            <CheckAction due={due} name={name} />
            {last !== null && last.outcome !== null && last.id === voiding ? (
              <VoidCheck
                checkId={last.id}
                onClose={() => onVoiding(null)}
                onSaved={() => onVoiding(null)}
                what={`${checkWords[check]} of ${dayByNameAt(last.at, last.zone, today)}`}
              />
            ) : null}
          </li>
        );
      })}
    </ul>
  );
}

function LastDone({
  line: { due, state },
  today,
  onVoid,
}: {
  line: CheckLine;
  today: CivilDate;
  onVoid: (checkId: string) => void;
}) {
  const { logbook } = useLogbook();
  const { last, check, plan } = due;
  if (check === 'cylinder-expiry') return null;
  if (state === 'never') return <p className="quiet small">{plan.source}</p>;
  if (last === null)
    return <p className="quiet small">{check === 'simulation' ? 'No run yet' : 'None noted yet'}</p>;
  const { id, at, zone, technologistId, outcome } = last;
  return (
    <p className="quiet small">
      Last {dayByNameAt(at, zone, today)}, {initialsIn(logbook.technologists, technologistId)}
      {outcome === null ? null : (
        <>
          {`: ${outcomeWords[outcome]}. `}
          {logbook.controls.some((control) => control.id === id) ? (
            <Link href={controlHref(id)}>See it</Link>
          ) : (
            <button data-weight="line" onClick={() => onVoid(id)} type="button">
              Void…
            </button>
          )}
        </>
      )}
    </p>
  );
}
