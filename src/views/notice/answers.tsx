import { Link } from 'wouter';
import { Notice } from '../parts/notice.tsx';
import { Budget } from './budget.tsx';
import { FalseAlarms } from './falseAlarms.tsx';
import { NoticeOfSeries } from './noticeOfSeries.tsx';
import type { Counting } from './questions.ts';
import type { NoticeAnswers } from './useNotice.ts';

/** The right page: how soon each shift is noticed, how often nothing is, and how well a VA can be known. */
export function Answers({
  label,
  counting,
  answers,
}: {
  label: string;
  counting: Counting;
  answers: NoticeAnswers;
}) {
  const { tables, falseAlarms, budget, notes, howOften, problem, askAgain } = answers;
  if (tables.length === 0) return <NoRuns label={label} />;
  return (
    <div className="stack stack--loose">
      <h2 className="notice-title">{label}</h2>
      {problem === null ? null : <NotComputed askAgain={askAgain} problem={problem} />}
      {notes.map((note) => (
        <Notice key={note} tone="quiet">
          <p>{note}</p>
        </Notice>
      ))}
      {tables.map((table) => (
        <NoticeOfSeries key={table.heading} table={table} />
      ))}
      <FalseAlarms counting={counting} rows={falseAlarms} />
      <p className="small quiet">
        {howOften} Weeks and alarms are averages, for a mean and SD known for certain and runs that know
        nothing of each other; one shift may be noticed sooner, another later. Rules and published limits
        always judge together: the sooner counts.
      </p>
      <Budget table={budget} />
    </div>
  );
}

function NotComputed({ problem, askAgain }: { problem: string; askAgain: () => void }) {
  return (
    <Notice title="How soon could not be computed." tone="warn" urgent>
      <p>{problem}</p>
      <p>
        <button onClick={askAgain} type="button">
          Compute it again
        </button>
      </p>
    </Notice>
  );
}

function NoRuns({ label }: { label: string }) {
  return (
    <div className="stack">
      <h2 className="notice-title">{label}</h2>
      <p>
        Here will stand after how many weeks a leak is noticed, by this analyzer’s own rules and by the
        published limits alone. It takes runs with the syringe, and there are none yet.
      </p>
      <p>
        <Link href="/bench">Record the first run at the bench</Link>
      </p>
    </div>
  );
}
