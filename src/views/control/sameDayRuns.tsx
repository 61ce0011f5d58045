import type { BiologicalAssessment } from '../../core/index.ts';
import type { BiologicalContent } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { litres, dlco as writeDlco } from '../parts/figures.ts';
import { localZone } from '../parts/localTime.ts';
import { RunLink, RunVerdict } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { routeWords } from '../parts/words.ts';
import { sameDayAs, togetherSentences } from './sameDay.ts';

/** The syringe's word on the same analyzer the same day, and what it means beside the person's. */
export function SameDayRuns({
  control,
  assessment,
  zone = localZone(),
}: {
  control: BiologicalContent;
  assessment: BiologicalAssessment;
  /** In which it was recorded; this computer's while it is typed. */
  zone?: string;
}) {
  const { logbook, assessments } = useLogbook();
  const sameDay = sameDayAs(control, assessment, { logbook, assessments, zone });
  return (
    <section aria-label="The syringe, the same day" className="stack group">
      <h2>The syringe, the same day</h2>
      {sameDay.runs.length === 0 ? (
        <p className="quiet">
          No simulation was run on this analyzer that day. Run side by side, the two tell the analyzer from
          the person.
        </p>
      ) : (
        <TableFrame label="Simulations of the same day">
          <table>
            <thead>
              <tr>
                <th scope="col">Made at</th>
                <th scope="col">Route</th>
                <th data-number scope="col">
                  VA <span className="unit">L</span>
                </th>
                <th data-number scope="col">
                  DLCO
                </th>
                <th scope="col">Verdict</th>
              </tr>
            </thead>
            <tbody>
              {sameDay.runs.map((run) => (
                <OneRun key={run.id} run={run} />
              ))}
            </tbody>
          </table>
        </TableFrame>
      )}
      {togetherSentences(sameDay).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </section>
  );
}

function OneRun({ run }: { run: LoggedRun }) {
  const {
    logbook: { technologists },
    assessments,
  } = useLogbook();
  const numbers = assessments.get(run.id)?.numbers;
  const { dlco, dlcoUnit } = run.body.reading;
  return (
    <tr>
      <td data-nowrap>
        <RunLink run={run} technologists={technologists} />
      </td>
      <td>{routeWords[run.body.route]}</td>
      <td data-number>{numbers === undefined ? '–' : litres(numbers.simulatedVaL)}</td>
      <td data-nowrap data-number>
        {writeDlco(dlco, dlcoUnit)} <span className="unit">{dlcoUnit}</span>
      </td>
      <td>
        <RunVerdict assessments={assessments} run={run} />
      </td>
    </tr>
  );
}
