import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { contentsInShort } from '../gases.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { type Fitted, fittedTo, fittingsOf } from './fittedCylinders.ts';
import { useInitials } from './useInitials.ts';

/** Which cylinder an analyzer takes its gas from, and took it from before. */
export function CylindersOfAnalyzer({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  return (
    <Fittings
      fitted={fittedTo(logbook, analyzerId)}
      nameOf={({ fitting }) => {
        const { cylinderId } = fitting.body;
        if (cylinderId === null) return 'None fitted';
        const cylinder = logbook.cylinders.get(cylinderId);
        if (cylinder === undefined) return 'A cylinder that is not in the logbook';
        return (
          <>
            <Link href={`/equipment/cylinder/${cylinderId}`}>{cylinder.description.label}</Link>{' '}
            <span className="quiet">{contentsInShort(cylinder.description)}</span>
          </>
        );
      }}
      nothing="None written down yet. “Fit a cylinder…” says which one it takes its test gas from."
      title="Test gas"
    />
  );
}

/** Which analyzers a cylinder is on, and was on before. */
export function AnalyzersOfCylinder({ cylinderId }: { cylinderId: string }) {
  const { logbook } = useLogbook();
  return (
    <Fittings
      fitted={fittingsOf(logbook, cylinderId)}
      nameOf={({ fitting }) => {
        const { analyzerId } = fitting.body;
        return (
          <Link href={`/equipment/analyzer/${analyzerId}`}>
            {logbook.analyzers.get(analyzerId)?.description.label ?? 'An analyzer that is not in the logbook'}
          </Link>
        );
      }}
      nothing="Not fitted to any analyzer yet."
      title="Fitted to"
    />
  );
}

function Fittings({
  title,
  fitted,
  nameOf,
  nothing,
}: {
  title: string;
  /** Oldest first. */
  fitted: readonly Fitted[];
  nameOf: (fitted: Fitted) => ReactNode;
  nothing: string;
}) {
  const initials = useInitials();
  return (
    <section className="stack group">
      <h2>{title}</h2>
      {fitted.length === 0 ? <p className="quiet">{nothing}</p> : null}
      <ol className="history">
        {fitted.toReversed().map((one) => {
          const { id, by, zone, body } = one.fitting;
          return (
            <li key={id}>
              <p>
                {one.until === null ? <strong>Now: </strong> : null}
                {nameOf(one)}
              </p>
              <p className="quiet small">
                {one.until === null
                  ? `since ${dayAndTime(body.fittedAt, zone)}`
                  : `${dayAndTime(body.fittedAt, zone)} – ${dayAndTime(one.until, zone)}`}
                , {initials(by)}
              </p>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
