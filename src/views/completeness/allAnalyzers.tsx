import { Link } from 'wouter';
import { completenessHref } from '../deskRoutes.ts';
import { type AnalyzerLine, onTimeSentence } from './buildCompleteness.ts';
import { QuarterTable } from './onTimeTables.tsx';
import { WeekLegend } from './weekMark.tsx';
import { WeekStrip } from './weekStrip.tsx';

/** Every analyzer's weeks below one another, and how many of its runs came in time. */
export function AllAnalyzers({ lines }: { lines: readonly AnalyzerLine[] }) {
  return (
    <article className="stack stack--loose">
      <section className="stack">
        <h2>Weeks with and without a run</h2>
        {lines.length === 0 ? (
          <p className="quiet">No analyzer was in use in this period.</p>
        ) : (
          <WeekLegend />
        )}
        <ul className="strip-list">
          {lines.map((line) => (
            <li className="stack" key={line.analyzer.id}>
              <h3>
                <Link href={completenessHref(line.analyzer.id)}>{line.label}</Link>
              </h3>
              <WeekStrip line={line} />
              <p className="small">
                {line.answer === null
                  ? 'Simulations are not scheduled in this laboratory by an interval.'
                  : onTimeSentence(line.answer.whole)}
              </p>
            </li>
          ))}
        </ul>
      </section>
      {lines.length > 0 ? <QuarterTable lines={lines} /> : null}
    </article>
  );
}
