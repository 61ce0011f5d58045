import { Link } from 'wouter';
import { openFailures, seriesKey } from '../failures.ts';
import { day } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
import { investigationHref } from '../routes.ts';
import { useFailures } from '../useFailures.ts';

/** Says above the verdict that the analyzer in hand has a failure which nobody has closed. */
export function OpenFailures({ analyzerId }: { analyzerId: string }) {
  const open = openFailures(useFailures()).filter((failure) => failure.analyzerId === analyzerId);
  if (open.length === 0) return null;
  return (
    <Notice
      title={`${open.length === 1 ? 'A failure is' : 'Failures are'} open on this analyzer`}
      tone="fail"
    >
      {open.map(({ series, openedBy }) => (
        <p key={seriesKey(analyzerId, series)}>
          {quantityWords[series.quantity]}, {routeWords[series.route].toLowerCase()}, since{' '}
          {day(openedBy.body.madeAt)}. No run of it enters a mean until a supervisor closes it.{' '}
          <Link href={investigationHref(openedBy.id)}>Look into it</Link>
        </p>
      ))}
      <p>
        <Link href="/review">See it under Review</Link>
      </p>
    </Notice>
  );
}
