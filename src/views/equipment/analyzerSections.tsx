import type { EntryBody } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { eventWords } from '../parts/words.ts';
import { servicePeriods } from './servicePeriods.ts';
import { StateMark } from './stateMark.tsx';
import { useInitials } from './useInitials.ts';

/** At the top of the record of an analyzer that is not to be used. */
export function OutOfService({ service }: { service: EntryBody<'service-set'> }) {
  return (
    <Notice
      title={<StateMark tone="warn" words={`Out of service since ${dayAndTime(service.from)}`} />}
      tone="warn"
    >
      <p>{service.reason}</p>
    </Notice>
  );
}

export function ServicePeriods({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const initials = useInitials();
  const periods = servicePeriods(logbook, analyzerId).reverse();
  return (
    <section className="stack group">
      <h2>Out of service</h2>
      {periods.length === 0 ? <p className="quiet">Never, as far as is written down.</p> : null}
      <ol className="history">
        {periods.map(({ out: [first, ...again], back }) =>
          first === undefined ? null : (
            <li key={first.id}>
              <p>
                <strong>
                  {dayAndTime(first.body.from, first.zone)} –{' '}
                  {back ? dayAndTime(back.body.from, back.zone) : 'today'}
                </strong>
              </p>
              {[first, ...again].map(({ id, by, body }) => (
                <p key={id}>
                  <span className="quiet">Taken out, {initials(by)}:</span> {body.reason}
                </p>
              ))}
              {back ? (
                <p>
                  <span className="quiet">Put back, {initials(back.by)}:</span> {back.body.reason}
                </p>
              ) : null}
            </li>
          ),
        )}
      </ol>
    </section>
  );
}

export function Events({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const initials = useInitials();
  const lines = [
    ...logbook.events
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map(({ id, by, zone, body }) => ({
        id,
        by,
        zone,
        at: body.happenedAt,
        what: eventWords[body.type],
        description: body.description,
      })),
    ...logbook.baselineStarts
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map(({ id, by, zone, body }) => ({
        id,
        by,
        zone,
        at: body.from,
        what: 'New baseline',
        description: body.reason,
      })),
  ].sort((one, other) => Date.parse(other.at) - Date.parse(one.at));
  return (
    <section className="stack group">
      <h2>Events</h2>
      {lines.length === 0 ? (
        <p className="quiet">None yet. Services, parts, bags, sensors, cylinders and software stand here.</p>
      ) : (
        <ol className="history">
          {lines.map(({ id, at, zone, by, what, description }) => (
            <li key={id}>
              <span className="quiet">
                {dayAndTime(at, zone)}, {initials(by)}
              </span>
              <br />
              <strong>{what}</strong>: {description}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
