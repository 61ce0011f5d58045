/** What a table says of a control in the same way wherever it lists one. */
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { LoggedControl } from '../../journal/logbook.ts';
import { formerTexts } from '../amendments.ts';
import { contentsOf, judgedAsWritten } from '../controlAsWritten.ts';
import { controlHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from './figures.ts';
import { AmendedVerdict, Corrected, Struck } from './struck.tsx';

/** When a control was made, in the zone it was recorded in: the way to its own page. */
export function ControlLink({ logged }: { logged: LoggedControl }) {
  const { logbook } = useLogbook();
  const { zone } = logged.entry;
  const written = contentsOf(logged).map(({ madeAt }) => dayAndTime(madeAt, zone));
  return (
    <Corrected former={formerTexts(logged.amendments, logbook.technologists, written)}>
      <StruckControl logged={logged}>
        <Link href={controlHref(logged.id)}>{dayAndTime(logged.control.madeAt, zone)}</Link>
      </StruckControl>
    </Corrected>
  );
}

/** As a control stands: struck through where it was voided, and by a broken line where it was set aside. */
export function StruckControl({ logged, children }: { logged: LoggedControl; children: ReactNode }) {
  if (logged.voided !== null) return <Struck>{children}</Struck>;
  return logged.setAside === null ? children : <span className="set-aside">{children}</span>;
}

/** The verdict of its day, struck through beside the amended one where an amendment changed it. */
export function ControlVerdictCell({ logged }: { logged: LoggedControl }) {
  if (logged.voided !== null) return 'Voided';
  const ofTheDay = logged.entry.body.judged;
  const now = judgedAsWritten(logged);
  const isChanged = ofTheDay.word !== now.word || ofTheDay.establishing !== now.establishing;
  const verdict = <AmendedVerdict now={now} ofTheDay={isChanged ? ofTheDay : null} />;
  if (logged.setAside === null) return verdict;
  return (
    <>
      {verdict} <span className="quiet small">set aside</span>
    </>
  );
}
