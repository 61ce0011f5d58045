import type { Route } from '../../core/index.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime, dlco, litres, zInTable } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import { routeWords } from '../parts/words.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';

const shown = 6;

/** The analyzer's last runs by the same route, newest first, with the verdict of their day. */
export function LastRuns({ analyzerId, route }: { analyzerId: string; route: Route }) {
  const { logbook, assessments } = useLogbook();
  const analyzer = logbook.analyzers.get(analyzerId);
  if (!analyzer) return null;
  const runs = logbook.runs
    .filter(({ body, voided }) => body.analyzerId === analyzerId && body.route === route && voided === null)
    .slice(-shown)
    .reverse();
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
            {runs.map((run) => {
              const { id, body, entry } = run;
              const numbers = assessments.get(id)?.numbers;
              const judged = shownJudgement(run, assessments);
              return (
                <tr key={id}>
                  <td data-nowrap>{dayAndTime(body.madeAt, entry.zone)}</td>
                  <td data-number>{numbers ? litres(numbers.simulatedVaL) : '–'}</td>
                  <td data-number>{zCell(judged?.va.z)}</td>
                  <td data-number>{dlco(body.reading.dlco, body.reading.dlcoUnit)}</td>
                  <td data-number>{zCell(judged?.dlco.z)}</td>
                  <td>
                    {judged ? <VerdictBadge establishing={judged.establishing} word={judged.word} /> : '–'}
                  </td>
                  <td>{logbook.technologists.get(body.technologistId)?.initials}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}

const zCell = (z: number | null | undefined) => (z === null || z === undefined ? '–' : zInTable(z));
