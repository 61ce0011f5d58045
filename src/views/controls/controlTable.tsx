import { Fragment, useState } from 'react';
import { Link } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import type { Former } from '../amendments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ControlLink, ControlVerdictCell, StruckControl } from '../parts/controlInTable.tsx';
import { counted } from '../parts/figures.ts';
import { RunVerdict } from '../parts/runInTable.tsx';
import { Corrected } from '../parts/struck.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { routeWords } from '../parts/words.ts';
import { runHref } from '../routes.ts';
import { type ControlRow, signalLines } from './buildControlRows.ts';

const newest = 60;

export interface MeasuredColumn {
  /** Empty where there is one alone and its heading says it. */
  of: string;
  title: string;
  unit: string;
}

/** The controls of the charts, newest first, each with the simulations of its day. A voided one stays, struck through. */
export function ControlTable({
  caption,
  rows,
  columns,
  noun,
  offUnit,
  hasHaemoglobin,
}: {
  caption: string;
  rows: readonly ControlRow[];
  /** One for each of a row's measured cells. */
  columns: readonly MeasuredColumn[];
  noun: string;
  /** Of the distance from the mean of the first tests; null where that is no column. */
  offUnit: string | null;
  hasHaemoglobin: boolean;
}) {
  const [all, setAll] = useState(false);
  const shown = all ? rows : rows.slice(0, newest);
  const width = 5 + columns.length * 2 + (offUnit === null ? 0 : 1) + (hasHaemoglobin ? 1 : 0);
  return (
    <div className="stack">
      <TableFrame label={caption}>
        <table className="run-table control-table">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Made</th>
              <th scope="col">Verdict</th>
              {columns.map(({ of, title, unit }) => (
                <Fragment key={`${of} ${title}`}>
                  <th data-number scope="col">
                    {of === '' ? title : `${of}, ${title}`} <span className="unit">{unit}</span>
                  </th>
                  <th data-number scope="col">
                    {of === '' ? 'z' : `${of}, z`}
                  </th>
                </Fragment>
              ))}
              {offUnit === null ? null : (
                <th data-number scope="col">
                  Off the first six <span className="unit">{offUnit}</span>
                </th>
              )}
              <th scope="col">Signals</th>
              {hasHaemoglobin ? (
                <th data-number scope="col">
                  Haemoglobin
                </th>
              ) : null}
              <th scope="col">Simulation that day</th>
              <th scope="col">By</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <Fragment key={row.id}>
                <Row columns={columns} hasHaemoglobin={hasHaemoglobin} offUnit={offUnit} row={row} />
                {row.notes.length === 0 ? null : (
                  <tr className="run-table__remark">
                    <td colSpan={width}>
                      <div className="run-table__inset">
                        {row.notes.map((note) => (
                          <p key={note}>{note}</p>
                        ))}
                      </div>
                    </td>
                  </tr>
                )}
              </Fragment>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {all || rows.length <= newest ? null : (
        <div>
          <button onClick={() => setAll(true)} type="button">
            Show all {counted(rows.length, noun)}
          </button>
        </div>
      )}
    </div>
  );
}

function Row({
  row,
  columns,
  offUnit,
  hasHaemoglobin,
}: {
  row: ControlRow;
  columns: readonly MeasuredColumn[];
  offUnit: string | null;
  hasHaemoglobin: boolean;
}) {
  const { logged, measured, off, haemoglobin, runs, by } = row;
  const figure = (text: string, former: readonly Former[] = []) => (
    <td data-number>
      <Corrected former={former}>
        <StruckControl logged={logged}>{text}</StruckControl>
      </Corrected>
    </td>
  );
  return (
    <tr data-voided={logged.voided ? true : undefined}>
      <td data-nowrap>
        <ControlLink logged={logged} />
      </td>
      <td data-nowrap>
        <ControlVerdictCell logged={logged} />
      </td>
      {measured.map((cells, index) => (
        <Fragment key={columns[index]?.of ?? index}>
          {figure(cells?.value ?? '–', cells?.former)}
          {figure(cells?.z ?? '–')}
        </Fragment>
      ))}
      {offUnit === null ? null : figure(off)}
      <td className="control-table__signals">
        {signalLines(row, columns).map((line) => (
          <div key={line}>{line}</div>
        ))}
      </td>
      {hasHaemoglobin ? figure(haemoglobin.text, haemoglobin.former) : null}
      <td data-nowrap>
        <Simulations runs={runs} />
      </td>
      <td>{by}</td>
    </tr>
  );
}

function Simulations({ runs }: { runs: readonly LoggedRun[] }) {
  const { assessments } = useLogbook();
  if (runs.length === 0) return <span className="quiet">none</span>;
  return runs.map((run) => (
    <Link className="control-table__run" href={runHref(run.id)} key={run.id}>
      <RunVerdict assessments={assessments} run={run} />
      {runs.length === 1 ? null : <span className="quiet"> {routeWords[run.body.route].toLowerCase()}</span>}
    </Link>
  ));
}
