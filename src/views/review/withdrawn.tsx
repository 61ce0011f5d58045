import { Link } from 'wouter';
import type { Logbook } from '../../journal/logbook.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { controlHref } from '../deskRoutes.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { day } from '../parts/figures.ts';
import { runHref } from '../routes.ts';
import { withdrawnControls, withdrawnFailures } from './withdrawnFailures.ts';

interface WithdrawnLine {
  href: string;
  analyzerId: string;
  madeAt: string;
  /** What became of it. */
  what: string;
}

/** Runs, then controls, each newest first. */
export function withdrawnLines(
  { runs, controls }: Pick<Logbook, 'runs' | 'controls'>,
  failures: readonly Failure[],
  controlFailures: readonly ControlFailure[],
): readonly WithdrawnLine[] {
  const became = ({ voided, setAside }: { voided: unknown; setAside: unknown }) =>
    voided !== null ? 'voided' : setAside !== null ? 'set aside' : null;
  return [
    ...withdrawnFailures(runs, failures).map((run) => {
      const { analyzerId, madeAt } = run.body;
      return { href: runHref(run.id), analyzerId, madeAt, what: became(run) ?? 'amended' };
    }),
    ...withdrawnControls(controls, controlFailures).map((logged) => {
      const { analyzerId, madeAt } = logged.control;
      const what = became(logged) ?? (logged.excluded ? 'the person was excluded' : 'amended');
      return { href: controlHref(logged.id), analyzerId, madeAt, what: `control, ${what}` };
    }),
  ];
}

/** What failed on its day and opens no failure any more stays in the supervisor's sight, with the way to the whole story. */
export function Withdrawn({ lines }: { lines: readonly WithdrawnLine[] }) {
  const { logbook } = useLogbook();
  return (
    <section className="stack group">
      <h2>Failed on their day, put right since</h2>
      <ul className="choose-list">
        {lines.map(({ href, analyzerId, madeAt, what }) => (
          <li key={href}>
            <Link href={href}>
              <span>{logbook.analyzers.get(analyzerId)?.description.label}</span>{' '}
              <span className="quiet small">
                {day(madeAt)}, {what}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
