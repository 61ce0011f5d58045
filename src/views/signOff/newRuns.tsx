import { useState } from 'react';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { routeWords } from '../parts/words.ts';

const fewest = 30;

/** Newest first; an import of years is not drawn whole unless it is asked for. */
export function NewRuns({ runs, label }: { runs: readonly LoggedRun[]; label: string }) {
  const { logbook, assessments } = useLogbook();
  const [showsAll, setShowsAll] = useState(false);
  const newest = runs.toReversed();
  const shown = showsAll ? newest : newest.slice(0, fewest);
  return (
    <section className="stack group">
      <h2>Runs recorded</h2>
      <TableFrame label={`${label}: new runs`}>
        <table>
          <thead>
            <tr>
              <th scope="col">Made at</th>
              <th scope="col">Route</th>
              <th scope="col">Verdict</th>
              <th scope="col">By</th>
              <th scope="col">Comment</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((run) => (
              <tr key={run.id}>
                <td data-nowrap>
                  <RunLink run={run} technologists={logbook.technologists} />
                </td>
                <td>{routeWords[run.body.route]}</td>
                <td>
                  <RunVerdict assessments={assessments} run={run} />
                </td>
                <td>
                  <TechnologistOf run={run} technologists={logbook.technologists} />
                </td>
                <td>{run.body.comment}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {shown.length < newest.length ? (
        <div className="line">
          <button onClick={() => setShowsAll(true)} type="button">
            Show {counted(newest.length - shown.length, 'earlier run')}
          </button>
        </div>
      ) : null}
    </section>
  );
}
