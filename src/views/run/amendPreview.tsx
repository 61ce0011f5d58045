import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FailureItOpened } from '../parts/failureItOpened.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { WhatChanges } from '../parts/whatChanges.tsx';
import { Judged } from '../runForm/judged.tsx';
import { shownJudgement } from '../verdictOfTheDay.ts';
import type { Amendment } from './useAmendment.ts';

/** The right page while a run is amended: what the typed values come to, and what they change. */
export function AmendPreview({
  run,
  amendment: { form, assessment, changes },
}: {
  run: LoggedRun;
  amendment: Amendment;
}) {
  const { assessments } = useLogbook();
  const judged = shownJudgement(run, assessments);
  return (
    <div className="stack stack--loose">
      <FailureItOpened runId={run.id} />
      <WhatChanges changes={changes} />
      <section aria-label="Verdict as amended" className="stack group">
        {judged ? (
          <p className="quiet">
            It stands as <VerdictBadge establishing={judged.establishing} word={judged.word} />. With what is
            typed, not written yet:
          </p>
        ) : null}
        {assessment && form.reading.run ? (
          <Judged assessment={assessment} run={form.reading.run} runId={run.id} />
        ) : (
          <p className="quiet">No verdict yet.</p>
        )}
      </section>
    </div>
  );
}
