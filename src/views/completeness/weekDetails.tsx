import { useLogbook } from '../logbookContext.tsx';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { reasonsOf, type WeekLine } from './buildWeeks.ts';
import { Reasons } from './lapseList.tsx';

/** The week that was chosen: its runs, or why it has none. */
export function WeekDetails({ week }: { week: WeekLine }) {
  const { logbook, assessments } = useLogbook();
  return (
    <section aria-label="The week chosen" className="stack week-details">
      <p>
        <strong>{week.name}</strong>: {week.words}.
      </p>
      {week.runs.map((run) => (
        <p className="line line--baseline week-run" key={run.id}>
          <RunVerdict assessments={assessments} run={run} />
          <span>
            <RunLink run={run} technologists={logbook.technologists} />,{' '}
            <TechnologistOf run={run} technologists={logbook.technologists} />
          </span>
        </p>
      ))}
      <Reasons reasons={reasonsOf(week, logbook)} />
    </section>
  );
}

/** The same weeks for who would rather read than point. */
export function WeekTable({ weeks, label }: { weeks: readonly WeekLine[]; label: string }) {
  const { logbook, assessments } = useLogbook();
  return (
    <details>
      <summary>The weeks as a table</summary>
      <TableFrame label={`${label}, week by week`}>
        <table>
          <thead>
            <tr>
              <th scope="col">Week</th>
              <th scope="col">What happened</th>
              <th scope="col">Runs</th>
              <th scope="col">Reason given</th>
            </tr>
          </thead>
          <tbody>
            {weeks.map((week) => (
              <tr key={week.monday}>
                <th data-nowrap scope="row">
                  {week.name}
                </th>
                <td>{week.words}</td>
                <td>
                  {week.runs.map((run) => (
                    <div className="line line--baseline week-run" key={run.id}>
                      <RunLink run={run} technologists={logbook.technologists} />
                      <RunVerdict assessments={assessments} run={run} />
                    </div>
                  ))}
                </td>
                <td>
                  {week.explanations.map(({ id, reason }) => (
                    <div key={id}>{reason}</div>
                  ))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </details>
  );
}
