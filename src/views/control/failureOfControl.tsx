import { Link } from 'wouter';
import { controlFailureHref } from '../deskRoutes.ts';
import { dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { useControlFailures } from '../useControlAssessments.ts';
import { seriesName } from './words.ts';

/** The way to the failures that a control opened or was made in, as long as nobody has closed them. */
export function OpenFailuresOf({ controlId }: { controlId: string }) {
  const open = useControlFailures().filter(
    ({ controls, ended }) => ended === null && controls.some(({ id }) => id === controlId),
  );
  return open.map(({ series, openedBy }) => (
    <p key={seriesName(series)}>
      {openedBy.id === controlId
        ? `It opened a failure of ${seriesName(series)}: `
        : `Made while a failure of ${seriesName(series)} was open, since ${dayAndTime(openedBy.control.madeAt, openedBy.entry.zone)}: `}
      <Link href={controlFailureHref(openedBy.id, series)}>see it under Review</Link>
    </p>
  ));
}

/** An amendment or a void can take away what opened a failure: whoever does it is told before it is written. */
export function FailureItOpened({ controlId }: { controlId: string }) {
  const opened = useControlFailures().filter(({ openedBy }) => openedBy.id === controlId);
  if (opened.length === 0) return null;
  return (
    <Notice
      title={`It opened a failure: ${opened.map(({ series }) => seriesName(series)).join('; ')}.`}
      tone="warn"
    >
      <p>If it no longer does, the failure goes without a closure. Tell the supervisor.</p>
    </Notice>
  );
}
