import type { LoggedRun } from '../../journal/logbook.ts';
import { listFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChangeList } from '../parts/history.tsx';
import { Notice } from '../parts/notice.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';
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
      <FailureItOpened run={run} />
      <section aria-label="What changes" className="stack">
        <h2>What changes</h2>
        {changes === null ? (
          <p className="quiet">A value is missing or cannot be right; the message stands beside it.</p>
        ) : changes.length === 0 ? (
          <p className="quiet">Nothing yet.</p>
        ) : (
          <ChangeList changes={changes} />
        )}
      </section>
      <section aria-label="Verdict as amended" className="stack group">
        {judged ? (
          <p className="quiet">
            It stands as <VerdictBadge establishing={judged.establishing} word={judged.word} />. With what is
            typed, not written yet:
          </p>
        ) : null}
        {assessment && form.reading.run ? (
          <Judged assessment={assessment} run={form.reading.run} />
        ) : (
          <p className="quiet">No verdict yet.</p>
        )}
      </section>
    </div>
  );
}

/** An amendment can take away what opened a failure: whoever amends is told before it is written. */
function FailureItOpened({ run }: { run: LoggedRun }) {
  const { logbook, assessments } = useLogbook();
  const opened = listFailures(logbook, assessments).filter(({ openedBy }) => openedBy.id === run.id);
  if (opened.length === 0) return null;
  const named = opened.map(
    ({ series }) => `${quantityWords[series.quantity]}, ${routeWords[series.route].toLowerCase()}`,
  );
  return (
    <Notice title={`This run opened a failure: ${named.join('; ')}.`} tone="warn">
      <p>
        Where the amended values no longer open it, it goes from the review without a closure. This page goes
        on telling of it. Tell the supervisor.
      </p>
    </Notice>
  );
}
