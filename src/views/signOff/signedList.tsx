import { Link } from 'wouter';
import { initialsIn } from '../amendments.ts';
import { signedHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { civilDay, counted, day } from '../parts/figures.ts';
import { useSignatureChecks } from '../parts/useSignatureChecks.ts';
import { useSignedOff } from '../useSignedOff.ts';

/** Every sign-off there was, newest first. */
export function SignedList({ chosen }: { chosen: string | null }) {
  const { logbook } = useLogbook();
  const { coverage } = useSignedOff();
  const checks = useSignatureChecks();
  return (
    <section className="stack group">
      <h2>Signed off</h2>
      {coverage.signOffs.length === 0 ? (
        <p className="quiet">
          Nothing yet. Each sign-off stands here with who signed it, when, and what its signature is worth.
        </p>
      ) : (
        <ul className="choose-list">
          {coverage.signOffs.toReversed().map(({ signOff, covered, strayHeads }) => {
            const { body, by, at, zone, hash } = signOff;
            const verdict = checks?.find(({ entry }) => entry.hash === hash)?.verdict;
            const isWhole = strayHeads.length === 0;
            return (
              <li key={hash}>
                <Link
                  aria-current={body.signOffId === chosen ? 'true' : undefined}
                  href={signedHref(body.signOffId)}
                >
                  <span>
                    {civilDay(body.from)} to {civilDay(body.to)}
                  </span>{' '}
                  <span className="quiet small">
                    {initialsIn(logbook.technologists, by)}, {day(at, zone)},{' '}
                    {counted(covered.length, 'entry', 'entries')}, {verdictWords(verdict, isWhole)}
                  </span>
                </Link>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}

function verdictWords(verdict: string | undefined, isWhole: boolean): string {
  if (verdict === undefined) return 'being verified…';
  if (!isWhole) return 'entries missing here';
  if (verdict === 'valid') return 'verified';
  return verdict === 'unsigned' ? 'not signed' : 'does not verify';
}
