import { Link } from 'wouter';
import { nextChecks, type WeighedInquiry } from '../investigationChecks.ts';
import { investigationHref } from '../routes.ts';

const shown = 3;

/** What the evidence supports so far, in short; the evidence itself stands on the page of the investigation. */
export function LikelyCauses({ weighed, isOpen }: { weighed: WeighedInquiry; isOpen: boolean }) {
  const { causes } = weighed.ranking;
  const [next] = isOpen ? nextChecks(weighed) : [];
  const { about } = weighed.inquiry;
  return (
    <section className="stack group">
      <h2>{isOpen ? 'What it may be' : 'What it pointed to'}</h2>
      {causes.length === 0 ? (
        <p className="quiet">Nothing known so far points to one cause more than to another.</p>
      ) : (
        <ol className="cause-ranks">
          {causes.slice(0, shown).map(({ id, text }) => (
            <li key={id}>{text}</li>
          ))}
        </ol>
      )}
      {next === undefined ? null : (
        <p>
          Next check: <strong>{next.title}</strong>. <span className="quiet">{next.why}</span>
        </p>
      )}
      <p>
        <Link href={investigationHref(about.id)}>
          {isOpen ? 'Look into it: checks and likely causes' : 'What was checked, and what it pointed to'}
        </Link>
      </p>
    </section>
  );
}
