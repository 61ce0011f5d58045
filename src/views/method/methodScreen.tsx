import { useEffect, useMemo, useRef } from 'react';
import { Link, useParams } from 'wouter';
import { methodHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { asSentence } from '../parts/asSentence.ts';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { type MethodPlace, type TermId, termOf } from '../terms.ts';
import { buildMethod } from './buildMethod.ts';
import './method.css';
import { MethodBlocks } from './methodBlocks.tsx';
import type { MethodSection } from './methodModel.ts';

/** The left page: what there is to read. The right page: all of it on one sheet, turned to the part that was asked for. */
export default function MethodScreen() {
  const { logbook } = useLogbook();
  const { '*': asked = '' } = useParams();
  const at = new Date(useNow(logbook)).toISOString();
  const sections = useMemo(() => buildMethod(logbook, at), [logbook, at]);
  const isKnown = sections.some(({ place }) => place === asked);
  return (
    <Spread
      left={
        <nav aria-label="Parts of the method" className="stack method__contents screen-only">
          <ul className="choose-list">
            {sections.map(({ place, title }) => (
              <li key={place}>
                <Link
                  aria-current={place === asked ? 'true' : undefined}
                  href={methodHref(place)}
                  // The address stays the same, and the reader may have gone on from there.
                  onClick={() => {
                    if (place === asked) document.getElementById(headingId(place))?.scrollIntoView();
                  }}
                >
                  {title}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
      }
      right={
        <article className="stack stack--loose">
          <header className="stack">
            <h1>How the numbers are made</h1>
            <p>
              This page is written by what computes: its numbers are those that judge your runs, and its
              limits and rules those in force now. The browser’s print dialog prints it whole.
            </p>
          </header>
          {asked === '' || isKnown ? null : (
            <Notice title="This address names no part of the method. All of it stands here." tone="quiet" />
          )}
          {sections.map((section) => (
            <Part isAsked={section.place === asked} key={section.place} section={section} />
          ))}
        </article>
      }
      wide="right"
    />
  );
}

const headingId = (place: MethodPlace) => `method-${place}`;

function Part({
  section: { place, title, terms, blocks, sources },
  isAsked,
}: {
  section: MethodSection;
  isAsked: boolean;
}) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isAsked) return;
    heading.current?.scrollIntoView();
    heading.current?.focus({ preventScroll: true });
  }, [isAsked]);
  return (
    <section className="stack group">
      <h2 className="focus-stop" id={headingId(place)} ref={heading} tabIndex={-1}>
        {title}
      </h2>
      {terms.length === 0 ? null : <Meanings terms={terms} />}
      <MethodBlocks blocks={blocks} />
      {sources.length === 0 ? null : (
        <p className="quiet small">Sources. {sources.map(asSentence).join(' ')}</p>
      )}
    </section>
  );
}

/** The words of a part, as they are explained wherever they stand. */
function Meanings({ terms }: { terms: readonly TermId[] }) {
  return (
    <dl className="method__terms">
      {terms.map((id) => {
        const { name, says } = termOf(id);
        return (
          <div key={id}>
            <dt>{name}</dt>
            <dd>{says}</dd>
          </div>
        );
      })}
    </dl>
  );
}
