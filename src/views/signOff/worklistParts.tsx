import { Link } from 'wouter';
import { signOffHref } from '../deskRoutes.ts';
import { TickField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import type { Worklist } from './buildWorklist.ts';
import type { SignOffInHand } from './useSignOff.ts';

/** The pages that are to be looked through, each with what is new on it. */
export function PageList({
  worklist: { pages },
  seen,
  chosen,
}: {
  worklist: Worklist;
  seen: readonly string[];
  chosen: string | null;
}) {
  return (
    <ul className="choose-list">
      {pages.map(({ id, label, count, stamp, openFailures }) => {
        const isSeen = seen.includes(stamp);
        return (
          <li key={id}>
            <Link aria-current={id === chosen ? 'true' : undefined} href={signOffHref(id)}>
              <span className="line page-name">
                <span data-shape={isSeen ? 'pass' : 'establishing'}>
                  <VerdictMark shape={isSeen ? 'pass' : 'establishing'} size={14} />
                </span>
                {label}
              </span>{' '}
              <span className="quiet small">
                {count === 0 ? 'nothing new' : `${count} new`}
                {openFailures.length > 0 ? `, ${counted(openFailures.length, 'open failure')}` : ''}
                {isSeen ? ', looked through' : ''}
              </span>
            </Link>
          </li>
        );
      })}
    </ul>
  );
}

/** An open failure does not keep a period from being signed; not having seen it does. */
export function OpenFailures({ worklist, inHand }: { worklist: Worklist; inHand: SignOffInHand }) {
  const open = worklist.pages.flatMap(({ label, openFailures }) =>
    openFailures.map((failure) => ({ label, failure })),
  );
  if (open.length === 0) return null;
  return (
    <fieldset className="stack seen-failures">
      <legend>Open failures: tick each that you have seen</legend>
      {open.map(({ label, failure }) => {
        const { key, what, howLong } = failure;
        return (
          <TickField
            checked={inHand.draft.seen.includes(key)}
            key={key}
            label={`${label}, ${what}: ${howLong}`}
            onTick={(ticked) => inHand.tick(key, ticked)}
          />
        );
      })}
    </fieldset>
  );
}

/** What keeps the period from being signed, a sentence each. */
export function Missing({ missing }: { missing: readonly string[] }) {
  if (missing.length === 0) return null;
  return (
    <section aria-label="Still missing" className="stack">
      <p className="quiet">Still missing:</p>
      <ul className="missing-list small">
        {missing.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
