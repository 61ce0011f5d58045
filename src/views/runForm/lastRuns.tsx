import { memo } from 'react';
import type { Route, RunNumbers } from '../../core/index.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { formerValues, numbersOf, type RunStage } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dlco, litres, zInTable } from '../parts/figures.ts';
import { RunLink, RunVerdict, StruckRun, TechnologistOf } from '../parts/runInTable.tsx';
import { Corrected } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { routeWords } from '../parts/words.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';

const shown = 6;

/**
 * The analyzer's last runs by the same route, newest first, with the verdict of their day. Voided ones stay, struck
 * through. No key that is typed changes them, so none draws them again.
 */
export default memo(function LastRuns({ analyzerId, route }: { analyzerId: string; route: Route }) {
  const { logbook } = useLogbook();
  const analyzer = logbook.analyzers.get(analyzerId);
  if (!analyzer) return null;
  const runs = newestOf(
    logbook.runs,
    (run) => run.body.analyzerId === analyzerId && run.body.route === route,
  );
  const title = `Last runs of ${analyzer.description.label}, ${routeWords[route].toLowerCase()}`;
  if (runs.length === 0) {
    return (
      <section aria-label={title} className="stack group">
        <h2>{title}</h2>
        <p className="quiet">None yet. The first run you record stands here.</p>
      </section>
    );
  }
  return (
    <section aria-label={title} className="stack group">
      <h2>{title}</h2>
      <TableFrame label={title}>
        <table>
          <thead>
            <tr>
              <th scope="col">Made at</th>
              <th data-number scope="col">
                VA <span className="unit">L</span>
              </th>
              <th data-number scope="col">
                z
              </th>
              <th data-number scope="col">
                DLCO
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Verdict</th>
              <th scope="col">By</th>
            </tr>
          </thead>
          <tbody>
            {runs.map((run) => (
              <LastRun key={run.id} run={run} />
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
});

/** Newest first, looked for from the end: no more of them than are shown. */
function newestOf(runs: readonly LoggedRun[], isWanted: (run: LoggedRun) => boolean): LoggedRun[] {
  const found: LoggedRun[] = [];
  for (let index = runs.length - 1; index >= 0 && found.length < shown; index -= 1) {
    const run = runs[index];
    if (run !== undefined && isWanted(run)) found.push(run);
  }
  return found;
}

function LastRun({ run }: { run: LoggedRun }) {
  const {
    logbook: { technologists },
    assessments,
  } = useLogbook();
  const { id, body } = run;
  const numbers = assessments.get(id)?.numbers;
  const judged = shownJudgement(run, assessments);
  const written = (content: string, write: (stage: RunStage) => string) => (
    <Corrected former={formerValues(run, technologists, write)}>
      <StruckRun run={run}>{content}</StruckRun>
    </Corrected>
  );
  return (
    <tr>
      <td data-nowrap>
        <RunLink run={run} technologists={technologists} />
      </td>
      <td data-number>{written(vaCell(numbers), (stage) => vaCell(numbersOf(stage)))}</td>
      <td data-number>{written(zCell(judged?.va.z), (stage) => zCell(stage.judged?.va.z))}</td>
      <td data-number>{written(dlcoCell(body), ({ content }) => dlcoCell(content))}</td>
      <td data-number>{written(zCell(judged?.dlco.z), (stage) => zCell(stage.judged?.dlco.z))}</td>
      <td>
        <RunVerdict assessments={assessments} run={run} />
      </td>
      <td>
        <TechnologistOf run={run} technologists={technologists} />
      </td>
    </tr>
  );
}

const vaCell = (numbers: RunNumbers | null | undefined) => (numbers ? litres(numbers.simulatedVaL) : '–');
const dlcoCell = ({ reading }: RunContent) => dlco(reading.dlco, reading.dlcoUnit);
const zCell = (z: number | null | undefined) => (z === null || z === undefined ? '–' : zInTable(z));
