import { Link } from 'wouter';
import type { Syringe } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay, dayAndTime } from '../parts/figures.ts';
import { localDay, localZone } from '../parts/localTime.ts';
import { Notice } from '../parts/notice.tsx';
import { Struck } from '../parts/struck.tsx';
import { checkHref } from '../routes.ts';
import { isNeverNoted } from '../schedule.ts';
import { checkWords, dueSentence, outcomeWords } from '../scheduleWords.ts';
import { StateMark } from './stateMark.tsx';
import { useEquipmentDue } from './useEquipmentDue.ts';
import { useInitials } from './useInitials.ts';

const checks = ['syringe-leak', 'syringe-calibration'] as const;

/** At the top of a syringe's record: what has to be done before it can be trusted. */
export function SyringeState({ syringeId }: { syringeId: string }) {
  const { due, now } = useEquipmentDue();
  const pressing = due.filter(
    (one) =>
      one.about.id === syringeId &&
      !isNeverNoted(one) &&
      (one.failed !== null || one.droppedAt !== null || one.due.state === 'overdue'),
  );
  return pressing.map((one) => {
    const tone = one.failed === null ? 'warn' : 'fail';
    return (
      <Notice
        key={one.check}
        title={<StateMark tone={tone} words={dueSentence(one, localDay(now), localZone())} />}
        tone={tone}
      >
        {one.droppedAt === null ? null : (
          <p>Not to be used before leak and stop are checked (ATS laboratory manual, 3rd ed.).</p>
        )}
        {one.check === 'syringe-leak' || one.check === 'syringe-calibration' ? (
          <p>
            <Link href={checkHref(one.check, syringeId)}>Note the {checkWords[one.check].toLowerCase()}</Link>
          </p>
        ) : null}
      </Notice>
    );
  });
}

/** The checks of a syringe that were noted, newest first. */
export function SyringeChecks({ syringe: { id, retired } }: { syringe: Syringe }) {
  const { logbook } = useLogbook();
  const initials = useInitials();
  const noted = logbook.checks
    .filter(({ entry }) => entry.body.syringeId === id)
    .sort((one, other) => Date.parse(other.entry.body.doneAt) - Date.parse(one.entry.body.doneAt));
  return (
    <section className="stack group">
      <h2>Checks</h2>
      {noted.length === 0 ? <p className="quiet">No leak check or calibration is noted yet.</p> : null}
      <ol className="history">
        {noted.map(({ id: checkId, entry: { zone, body }, voided }) => (
          <li key={checkId}>
            <p className="quiet">
              {dayAndTime(body.doneAt, zone)}, {initials(body.technologistId)}
            </p>
            <p>
              <Struck isStruck={voided !== null}>
                <strong>
                  {checkWords[body.check]}: {outcomeWords[body.outcome]}
                </strong>
                {body.validUntil === null ? null : `, holds until ${civilDay(body.validUntil)}`}
              </Struck>
            </p>
            {body.note === '' ? null : <p>{body.note}</p>}
            {voided ? (
              <p className="quiet">
                Voided, {initials(voided.by)}: {voided.reason}
              </p>
            ) : null}
          </li>
        ))}
      </ol>
      {retired ? null : (
        <p className="line">
          {checks.map((check) => (
            <Link href={checkHref(check, id)} key={check}>
              Note a {checkWords[check].toLowerCase()}
            </Link>
          ))}
        </p>
      )}
    </section>
  );
}
