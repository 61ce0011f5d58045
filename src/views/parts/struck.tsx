import type { ReactNode } from 'react';
import type { Former } from '../amendments.ts';
import './struck.css';
import { VerdictBadge } from './verdictMark.tsx';

/** What no longer counts stays legible under a line. `isStruck` false draws the content as it is. */
export function Struck({ isStruck = true, children }: { isStruck?: boolean; children: ReactNode }) {
  return isStruck ? <s className="struck">{children}</s> : children;
}

/** A value with all that it replaced before it: struck through, with the initials of who corrected it. */
export function Corrected({ former, children }: { former: readonly Former[]; children: ReactNode }) {
  if (former.length === 0) return children;
  return (
    <span className="corrected">
      {former.map(({ value, initials, when }) => (
        <span key={`${when} ${value}`}>
          <span className="for-readers">was </span>
          <Struck>{value === '' ? 'empty' : value}</Struck>{' '}
          <span className="corrected__by" title={`Corrected by ${initials}, ${when}`}>
            {initials}
            <span className="for-readers">, corrected {when}, now</span>
          </span>{' '}
        </span>
      ))}
      <span>{children}</span>
    </span>
  );
}

type Verdict = Pick<Parameters<typeof VerdictBadge>[0], 'word' | 'establishing'>;

/** A verdict; where an amendment changed it, that of the day struck through beside it. */
export function AmendedVerdict({ ofTheDay, now }: { ofTheDay: Verdict | null; now: Verdict }) {
  const badge = <VerdictBadge establishing={now.establishing ?? false} word={now.word} />;
  if (ofTheDay === null) return badge;
  return (
    <span className="corrected">
      <span className="for-readers">on the day: </span>
      <Struck>
        <VerdictBadge establishing={ofTheDay.establishing ?? false} word={ofTheDay.word} />
      </Struck>{' '}
      <span className="for-readers">, as amended: </span>
      {badge}
    </span>
  );
}
