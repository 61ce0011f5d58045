import { lazy, Suspense, useState } from 'react';
import type { RunAssessment } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import { policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useNow } from '../parts/useNow.ts';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { useFailures } from '../useFailures.ts';
import { buildVerdictPage } from './buildVerdictPage.ts';
import { situationOf } from './situation.ts';
import { whatToDo } from './whatToDo.ts';
import './judged.css';

/** The form that is being typed needs none of it. */
const Why = lazy(() => import('./why.tsx'));

/** A verdict: the word, what to do now, what was found against which limit, and the reason one press away. */
export function Judged({
  run,
  runId = null,
  assessment,
}: {
  run: RunContent;
  /** Null while it is typed for the first time. */
  runId?: string | null;
  assessment: RunAssessment;
}) {
  const { logbook } = useLogbook();
  const failures = useFailures();
  const [isOpen, setOpen] = useState(false);
  const policy = policyInForce(logbook, run);
  const { minimumSize } = policy;
  const page = buildVerdictPage(run, assessment, policy);
  const now = useNow(logbook);
  const advice = whatToDo(situationOf({ run, runId, assessment, minimumSize, now }, logbook, failures));
  const { word, establishing } = assessment.verdict;
  return (
    <>
      <p className="verdict__word" key={word}>
        <VerdictBadge establishing={establishing} size="page" word={word} />
      </p>
      <p className="verdict__do">{advice.sentence}</p>
      <div className="verdict__found">
        {[...page.found, ...page.reasons].map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <details className="why" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>Why</summary>
        {isOpen ? (
          <Suspense fallback={<p className="quiet">Opening the reasons…</p>}>
            <Why assessment={assessment} policy={policy} run={run} />
          </Suspense>
        ) : null}
      </details>
      <p className="quiet small">
        This is advice. Local procedure, the manufacturer’s instructions and the responsible person decide
        whether patients are tested.
      </p>
    </>
  );
}
