import { Link } from 'wouter';
import { buildSecondCopyLine } from './buildSecondCopyLine.ts';
import { useLogbook } from './logbookContext.tsx';
import { useNow } from './parts/useNow.ts';
import { useSecondCopy } from './secondCopy.tsx';

/** The age of the second copy, what is not yet in it, and any failure. */
export function SecondCopyAge() {
  const { snapshot } = useLogbook();
  const { copy, state } = useSecondCopy();
  // The age is of the time it is drawn at, and a copy can be younger than the last tick of the clock.
  const now = Math.max(useNow(), state.written?.at ?? 0, state.backup?.at ?? 0);
  const line = buildSecondCopyLine(state, snapshot.rawRows, now);
  if (line === null) return null;
  return (
    <span className="top-line__copy" data-tone={line.tone}>
      <Link href="/records">{line.words}</Link>
      {line.canAllow ? (
        // Where the browser refuses even to ask, the button stays, and Records tells why when it is pressed there.
        <button data-weight="line" onClick={() => void copy?.askAgain().catch(() => {})} type="button">
          Allow again
        </button>
      ) : null}
    </span>
  );
}
