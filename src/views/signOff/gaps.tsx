import { Link } from 'wouter';
import { completenessHref } from '../deskRoutes.ts';
import { civilDay, counted } from '../parts/figures.ts';
import type { ExplainedGap } from './buildWorklist.ts';

/** Whole weeks without a run, with the reasons that were given. */
export function Gaps({ analyzerId, gaps }: { analyzerId: string; gaps: readonly ExplainedGap[] }) {
  return (
    <section className="stack group">
      <h2>Weeks without a run</h2>
      <ul className="work-lines">
        {gaps.map(({ from, to, weeks, isOutOfService, reasons }) => (
          <li key={from}>
            {civilDay(from)} to {civilDay(to)}: {counted(weeks, 'week')}
            {isOutOfService ? ', out of service' : reasons.length === 0 ? ', no reason given' : ''}
            {reasons.map((reason) => (
              <p className="small" key={reason}>
                {reason}
              </p>
            ))}
          </li>
        ))}
      </ul>
      <p>
        <Link href={completenessHref(analyzerId)}>Week by week, and where a reason is given</Link>
      </p>
    </section>
  );
}
