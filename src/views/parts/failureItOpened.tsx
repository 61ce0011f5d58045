import { useFailures } from '../useFailures.ts';
import { Notice } from './notice.tsx';
import { quantityWords, routeWords } from './words.ts';

/** An amendment or a void can take away what opened a failure: whoever does it is told before it is written. */
export function FailureItOpened({ runId }: { runId: string }) {
  const opened = useFailures().filter(({ openedBy }) => openedBy.id === runId);
  if (opened.length === 0) return null;
  const named = opened.map(
    ({ series }) => `${quantityWords[series.quantity]}, ${routeWords[series.route].toLowerCase()}`,
  );
  return (
    <Notice title={`This run opened a failure: ${named.join('; ')}.`} tone="warn">
      <p>
        If it no longer does, the failure goes without a closure. Review then lists the run among those that
        failed on their day. Tell the supervisor.
      </p>
    </Notice>
  );
}
