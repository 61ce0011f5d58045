import { defaultControlPolicy, type RunAssessment, type SimulationRun } from '../../core/index.ts';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { buildVerdictPage, type FigureRow } from './buildVerdictPage.ts';
import './judged.css';

/** A verdict in full: the word, what was found, what to do, and the numbers behind it. */
export function Judged({
  run,
  assessment,
}: {
  run: Pick<SimulationRun, 'reading' | 'conversion' | 'limits' | 'ambient'>;
  assessment: RunAssessment;
}) {
  const page = buildVerdictPage(run, assessment, defaultControlPolicy);
  const { word, establishing } = assessment.verdict;
  return (
    <>
      <p className="verdict__word" key={word}>
        <VerdictBadge establishing={establishing} size="page" word={word} />
      </p>
      <div className="verdict__found">
        {[...page.found, ...page.reasons].map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <p className="verdict__do">{page.whatToDo}</p>
      <Figures rows={page.figures} />
      {page.otherConversion ? <p className="verdict__other">{page.otherConversion}</p> : null}
      <p className="quiet small">
        This is advice. Local procedure, the manufacturer’s instructions and the responsible person decide
        whether patients are tested.
      </p>
    </>
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
