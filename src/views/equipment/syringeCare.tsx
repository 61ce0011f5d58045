import { Link } from 'wouter';
import type { LoggedCheck, Syringe } from '../../journal/logbook.ts';
import { figuresInWords } from '../checkFigures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { localDay, localZone } from '../parts/localTime.ts';
import { Struck } from '../parts/struck.tsx';
import { checkHref } from '../routes.ts';
import { checkWords, dueSentence, outcomeWords } from '../scheduleWords.ts';
import { buildSyringeCare, type Fall } from './buildSyringeCare.ts';
import { CertificateTable } from './certificateTable.tsx';
import { isPressing } from './syringeState.tsx';
import { useEquipmentDue } from './useEquipmentDue.ts';
import { useInitials } from './useInitials.ts';

const checks = ['syringe-leak', 'syringe-calibration'] as const;

/** Everything that keeps a syringe's volume known, in one place: what is due, certificates, leak checks and falls. */
export function SyringeCare({ syringe: { id, retired } }: { syringe: Syringe }) {
  const { logbook } = useLogbook();
  const care = buildSyringeCare(logbook, id);
  return (
    <section aria-label="Syringe care" className="stack stack--loose group">
      <div className="stack">
        <h2>Syringe care</h2>
        {retired ? null : (
          <>
            <Due syringeId={id} />
            <p className="line">
              {checks.map((check) => (
                <Link href={checkHref(check, id)} key={check}>
                  Note a {checkWords[check].toLowerCase()}
                </Link>
              ))}
            </p>
          </>
        )}
      </div>
      <section className="stack">
        <h3>Certificates</h3>
        <CertificateTable rows={care.certificates} />
      </section>
      <section className="stack">
        <h3>Leak and stop checks</h3>
        {care.leakChecks.length === 0 ? <p className="quiet">None is noted yet.</p> : null}
        <ol className="history">
          {care.leakChecks.map((check) => (
            <LeakCheck check={check} key={check.id} />
          ))}
        </ol>
      </section>
      <section className="stack">
        <h3>Falls</h3>
        {care.falls.length === 0 ? <p className="quiet">None is written down.</p> : null}
        <ol className="history">
          {care.falls.map((fall) => (
            <OneFall fall={fall} key={fall.drop.id} />
          ))}
        </ol>
      </section>
    </section>
  );
}

/** When each of its checks is due next; what presses stands at the top of the page. */
function Due({ syringeId }: { syringeId: string }) {
  const { due, now } = useEquipmentDue();
  const ofSyringe = due.filter((one) => one.about.id === syringeId && !isPressing(one));
  return ofSyringe.map((one) => <p key={one.check}>{dueSentence(one, localDay(now), localZone())}.</p>);
}

function LeakCheck({ check: { entry, voided } }: { check: LoggedCheck }) {
  const initials = useInitials();
  const { body, zone } = entry;
  return (
    <li>
      <p className="quiet">
        {dayAndTime(body.doneAt, zone)}, {initials(body.technologistId)}
      </p>
      <p>
        <Struck isStruck={voided !== null}>
          <strong>
            {checkWords[body.check]}: {outcomeWords[body.outcome]}
          </strong>
        </Struck>
      </p>
      {figuresInWords(body).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {body.note === '' ? null : <p>{body.note}</p>}
      {voided ? (
        <p className="quiet">
          Voided, {initials(voided.by)}: {voided.reason}
        </p>
      ) : null}
    </li>
  );
}

function OneFall({ fall: { drop, checked } }: { fall: Fall }) {
  const initials = useInitials();
  return (
    <li>
      <p className="quiet">
        {dayAndTime(drop.body.droppedAt, drop.zone)}, {initials(drop.by)}
      </p>
      <p>{drop.body.description}</p>
      <p className={checked === null ? undefined : 'quiet'}>
        {checked === null
          ? 'Leak and stop not checked since.'
          : `Leak and stop checked ${dayAndTime(checked.entry.body.doneAt, checked.entry.zone)}: ${outcomeWords[checked.entry.body.outcome]}.`}
      </p>
    </li>
  );
}
