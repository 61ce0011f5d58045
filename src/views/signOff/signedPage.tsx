import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import { reportOfPeriodHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { civilDay, counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { SignatureOf } from '../parts/signatureOf.tsx';
import type { SignOff } from '../signedOff.ts';
import { useSignedOff } from '../useSignedOff.ts';

/** The right page of a sign-off that was made: who, when, over what, and what its signature is worth today. */
export function SignedPage({ signOff, takesFocus }: { signOff: SignOff; takesFocus: boolean }) {
  const { logbook } = useLogbook();
  const { coverage } = useSignedOff();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (takesFocus) heading.current?.focus();
  }, [takesFocus]);
  const { body, at, zone, by } = signOff;
  const found = coverage.signOffs.find((one) => one.signOff === signOff);
  const signer = logbook.technologists.get(by);
  return (
    <article className="stack stack--loose">
      <h1 ref={heading} tabIndex={-1}>
        Signed off: {civilDay(body.from)} to {civilDay(body.to)}
      </h1>
      {found !== undefined && found.strayHeads.length > 0 ? (
        <Notice title="Not all that was signed is in this logbook." tone="fail">
          <p>
            The last entry signed of {counted(found.strayHeads.length, 'workstation')} is not stored here, or
            says something else. Merge a backup of that workstation, then look again.
          </p>
        </Notice>
      ) : null}
      <FigureList
        rows={[
          { name: 'When', value: dayAndTime(at, zone) },
          { name: 'By', value: signer ? `${signer.initials}, ${signer.name}` : 'unknown' },
          { name: 'Entries covered', value: found?.covered.length ?? 0 },
          { name: 'Signature', value: <SignatureOf entry={signOff} /> },
          { name: 'On the whole', value: body.comment || '–' },
          ...body.analyzers.map(({ analyzerId, comment }) => ({
            name: logbook.analyzers.get(analyzerId)?.description.label ?? 'unknown',
            value: comment || '–',
          })),
        ]}
      />
      <p>
        <Link href={reportOfPeriodHref(body)}>Print a report of this period</Link>
      </p>
      <section className="stack group">
        <h2>What it covers</h2>
        <p>
          Every entry up to these, as far as no earlier sign-off covers it. The hash of each ties down all
          that was written before it.
        </p>
        <ul className="work-lines">
          {body.heads.map(({ workstation, seq, hash }) => (
            <li key={workstation}>
              Entry {seq} of workstation {workstation.slice(0, 8)} <span className="hash quiet">{hash}</span>
            </li>
          ))}
        </ul>
      </section>
    </article>
  );
}
