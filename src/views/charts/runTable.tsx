import { Fragment, useMemo, useState } from 'react';
import { useChartChoices } from '../charting/chartChoices.ts';
import type { ChartSeries, SeriesRun } from '../charting/runSeries.ts';
import type { SeriesScale } from '../charting/seriesScale.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VoidRun } from '../parts/voidRun.tsx';
import { buildRunRows } from './buildRunRows.ts';
import { columnsOf, RemarkLine, RunCells, SavedLine, type Worked } from './runCells.tsx';

const newest = 60;

/** The runs of the chart, newest first. Every number of a row stands with its unit; a voided run stays, struck through. */
export function RunTable({
  heading,
  series,
  runs,
  scale,
}: {
  heading: string;
  series: ChartSeries;
  runs: readonly SeriesRun[];
  scale: SeriesScale;
}) {
  const { logbook } = useLogbook();
  const { showMemory } = useChartChoices();
  const [all, setAll] = useState(false);
  const [voiding, setVoiding] = useState('');
  const [saved, setSaved] = useState('');
  const rows = useMemo(
    () => buildRunRows(all ? runs : runs.slice(-newest), series.quantity, scale, logbook),
    [all, runs, series.quantity, scale, logbook],
  );
  const worked = workedFrom(runs, series.quantity, scale.unit);
  const columns = columnsOf(worked, showMemory);
  return (
    <div className="stack">
      <TableFrame label={`${heading}: the runs of the chart`}>
        <table className="run-table">
          <caption>
            <bdi>{heading}</bdi>: the runs of the chart, newest first
          </caption>
          <thead>
            <tr>
              {columns.map(({ title, number, hidden }) => (
                <th data-number={number} key={title} scope="col">
                  {hidden ? <span className="for-readers">{title}</span> : title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Fragment key={row.id}>
                <RunCells
                  memory={showMemory}
                  onVoid={() => setVoiding(row.id)}
                  row={row}
                  unit={scale.unit}
                  worked={worked}
                />
                <RemarkLine columns={columns.length} row={row} />
                {saved === row.id && row.voided !== null ? (
                  <SavedLine columns={columns.length}>Saved: the run of {row.when} is voided.</SavedLine>
                ) : null}
                {voiding === row.id && row.voided === null ? (
                  <tr>
                    <td colSpan={columns.length}>
                      <div className="run-table__inset">
                        <VoidRun
                          onClose={() => setVoiding('')}
                          onSaved={() => {
                            setVoiding('');
                            setSaved(row.id);
                          }}
                          runId={row.id}
                          when={row.when}
                        />
                      </div>
                    </td>
                  </tr>
                ) : null}
              </Fragment>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {all || runs.length <= newest ? null : (
        <div>
          <button onClick={() => setAll(true)} type="button">
            Show all {counted(runs.length, 'run')}
          </button>
        </div>
      )}
    </div>
  );
}

function workedFrom(runs: readonly SeriesRun[], quantity: ChartSeries['quantity'], unit: string): Worked {
  if (quantity === 'va') return 'va';
  return runs.some(({ run }) => run.body.reading.dlcoUnit !== unit) ? 'dlco-in-other-unit' : 'nothing';
}
