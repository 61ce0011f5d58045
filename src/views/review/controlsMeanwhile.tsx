import { initialsIn } from '../amendments.ts';
import type { ControlScale } from '../charting/controlScale.ts';
import type { SeriesControl } from '../charting/controlSeries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ControlLink, ControlVerdictCell } from '../parts/controlInTable.tsx';
import { zInTable } from '../parts/figures.ts';
import { Corrected } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';

/** Every control of the series that was made while the failure was open. */
export function ControlsMeanwhile({
  items,
  noun,
  scale,
}: {
  items: readonly SeriesControl[];
  noun: string;
  scale: ControlScale;
}) {
  const { logbook } = useLogbook();
  const title = `${noun.charAt(0).toUpperCase()}${noun.slice(1)} while it was open`;
  return (
    <section className="stack group">
      <h2>{title}</h2>
      <TableFrame label={title}>
        <table>
          <thead>
            <tr>
              <th scope="col">Made at</th>
              <th data-number scope="col">
                {scale.measured} <span className="unit">{scale.unit}</span>
              </th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
              <th scope="col">This series</th>
              <th scope="col">On its day</th>
              <th scope="col">By</th>
              <th scope="col">Comment</th>
            </tr>
          </thead>
          <tbody>
            {items.map(({ id, logged, value, former, evaluation, word, comment, setAside }) => (
              <tr key={id}>
                <td data-nowrap>
                  <ControlLink logged={logged} />
                </td>
                <td data-number>
                  <Corrected former={former}>{scale.value(value)}</Corrected>
                </td>
                <td data-number>{evaluation.z === null ? '–' : zInTable(evaluation.z)}</td>
                <td>{evaluation.signals.map(({ rule }) => rule).join(', ') || '–'}</td>
                <td>
                  {setAside === null ? (
                    <VerdictBadge word={word} />
                  ) : (
                    <span className="quiet">counts not</span>
                  )}
                </td>
                <td>
                  <ControlVerdictCell logged={logged} />
                </td>
                <td>{initialsIn(logbook.technologists, logged.control.technologistId)}</td>
                <td>{comment}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}
