import { Link } from 'wouter';
import type { ControlPolicy, RunAssessment } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import { methodHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { buildWhy, type RuleReason, type TookPart } from './buildWhy.ts';
import type { FigureRow } from './verdictFigures.ts';
import './why.css';
import { TermLine } from '../parts/term.tsx';

/** The reason for a verdict, loaded when it is asked for: the rules, the runs that took part, every number, whose limits. */
export default function Why({
  run,
  assessment,
  policy,
}: {
  run: RunContent;
  assessment: RunAssessment;
  policy: ControlPolicy;
}) {
  const { logbook, assessments } = useLogbook();
  const why = buildWhy(run, assessment, { logbook, assessments, policy });
  return (
    <div className="stack why__page">
      {why.rules.map((rule) => (
        <Rule key={rule.key} rule={rule} />
      ))}
      <Figures rows={why.figures} />
      {why.otherConversion ? <p className="verdict__other">{why.otherConversion}</p> : null}
      <p className="quiet small">
        Published limits: {why.limits.edition}. {why.limits.source}.{' '}
        <Link href={methodHref()}>How every number is made</Link>
      </p>
      <TermLine ids={why.terms} />
    </div>
  );
}

function Rule({ rule: { title, sentence, runs } }: { rule: RuleReason }) {
  return (
    <section aria-label={title} className="why__rule">
      <p className="why__title">{title}</p>
      <p>{sentence}</p>
      {runs.length > 0 ? (
        <table>
          <caption className="for-readers">Runs that took part</caption>
          <thead>
            <tr>
              <th scope="col">Run that took part</th>
              <th data-number scope="col">
                Value
              </th>
              <th data-number scope="col">
                z
              </th>
            </tr>
          </thead>
          <tbody>
            {runs.map((each) => (
              <Part key={each.run?.id ?? 'this'} part={each} />
            ))}
          </tbody>
        </table>
      ) : null}
    </section>
  );
}

function Part({ part: { run, value, z } }: { part: TookPart }) {
  const { logbook } = useLogbook();
  return (
    <tr>
      <td>{run ? <RunLink run={run} technologists={logbook.technologists} /> : 'this run'}</td>
      <td data-number>{value}</td>
      <td data-number>{z}</td>
    </tr>
  );
}

function Figures({ rows }: { rows: readonly FigureRow[] }) {
  return (
    <dl aria-label="The numbers behind the verdict" className="verdict__figures">
      {rows.map(({ name, value, unit, note }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            {value} {unit ? <span className="unit">{unit}</span> : null}
          </dd>
          <dd className="verdict__note">{note}</dd>
        </div>
      ))}
    </dl>
  );
}
