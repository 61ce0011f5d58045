import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { TickField } from '../parts/field.tsx';
import { afterNewBaseline } from './consequences.ts';

/** Asks whether something changes an analyzer's mean, and says what follows; not while a failure is open on it. */
export function BaselineTick({
  analyzerId,
  hasOpenFailure,
  checked,
  onTick,
}: {
  analyzerId: string;
  hasOpenFailure: boolean;
  checked: boolean;
  onTick: (ticked: boolean) => void;
}) {
  const { logbook } = useLogbook();
  return (
    <div>
      <TickField
        checked={checked && !hasOpenFailure}
        disabled={hasOpenFailure}
        label="This changes the mean: start a new baseline."
        onTick={onTick}
      />
      <p className="tick-note quiet small">
        {hasOpenFailure ? (
          <>
            Not while a failure is open on this analyzer, which it would put aside without a word:{' '}
            <Link href="/review">close it under Review</Link> first, then start the baseline.
          </>
        ) : (
          `${afterNewBaseline(logbook, analyzerId, Date.now())} A supervisor starts it.`
        )}
      </p>
    </div>
  );
}
