import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { routeWords, verdictWords } from '../parts/words.ts';
import { runHref } from '../routes.ts';
import { shownJudgement } from '../verdictOfTheDay.ts';
import { buildPairRows, type QuantityCells } from './buildPairRows.ts';
import type { Comparison } from './comparison.ts';
import { differenceScale } from './differenceScale.ts';

const newest = 60;

/** Every pair, newest first. It is also what the charts draw, for whoever cannot see them. */
export function PairTable({ comparison, label }: { comparison: Comparison; label: string }) {
  const [all, setAll] = useState(false);
  const rows = useMemo(() => buildPairRows(comparison), [comparison]);
  const vaScale = differenceScale('va', comparison.dlcoUnit);
  const dlcoScale = differenceScale('dlco', comparison.dlcoUnit);
  return (
    <div className="stack">
      <TableFrame label="Pairs">
        <table className="pair-table">
          <caption>
            <bdi>{label}</bdi>: runs by both routes on one day, newest first
          </caption>
          <thead>
            <tr>
              <th rowSpan={2} scope="col">
                Day
              </th>
              <th colSpan={2} scope="colgroup">
                Runs
              </th>
              <th colSpan={4} scope="colgroup">
                Simulated VA <span className="unit">{vaScale.readingUnit}</span>
              </th>
              <th colSpan={4} scope="colgroup">
                DLCO <span className="unit">{dlcoScale.readingUnit}</span>
              </th>
            </tr>
            <tr>
              <RouteHeads />
              <QuantityHeads unit={vaScale.unit} />
              <QuantityHeads unit={dlcoScale.unit === dlcoScale.readingUnit ? '' : dlcoScale.unit} />
            </tr>
          </thead>
          <tbody>
            {(all ? rows : rows.slice(0, newest)).map(({ key, day, patientTest, builtIn, va, dlco }) => (
              <tr key={key}>
                <th data-nowrap scope="row">
                  {day}
                </th>
                <td>
                  <RunMark run={patientTest} />
                </td>
                <td>
                  <RunMark run={builtIn} />
                </td>
                <Cells cells={va} />
                <Cells cells={dlco} />
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {all || rows.length <= newest ? null : (
        <div>
          <button onClick={() => setAll(true)} type="button">
            Show all {counted(rows.length, 'pair')}
          </button>
        </div>
      )}
    </div>
  );
}

function RouteHeads({ number = false }: { number?: boolean }) {
  const attributes = number ? { 'data-number': true } : {};
  return (
    <>
      <th {...attributes} scope="col">
        Patient
        <span className="for-readers"> test</span>
      </th>
      <th {...attributes} scope="col">
        Built-in
        <span className="for-readers"> routine</span>
      </th>
    </>
  );
}

function QuantityHeads({ unit }: { unit: string }) {
  return (
    <>
      <RouteHeads number />
      <th data-number scope="col">
        Apart
        {unit === '' ? null : (
          <>
            <br />
            <span className="unit">{unit}</span>
          </>
        )}
      </th>
      <th data-number scope="col">
        z
      </th>
    </>
  );
}

function Cells({ cells: { patientTest, builtIn, difference, z, finding } }: { cells: QuantityCells }) {
  return (
    <>
      <td data-number>{patientTest}</td>
      <td data-number>{builtIn}</td>
      <td data-number>{difference}</td>
      <td data-finding={finding} data-number>
        {z}
        {finding === 'parted' ? <span className="for-readers"> the routes have parted</span> : null}
      </td>
    </>
  );
}

function RunMark({ run }: { run: LoggedRun }) {
  const { assessments } = useLogbook();
  const judged = shownJudgement(run, assessments);
  const word = judged === null ? 'No verdict' : verdictWords[judged.word];
  const name = `${word}: ${routeWords[run.body.route].toLowerCase()} of ${dayAndTime(run.body.madeAt, run.entry.zone)}`;
  return (
    <Link
      aria-label={name}
      className="pair-table__run"
      data-shape={judged?.word}
      href={runHref(run.id)}
      title={name}
    >
      {judged === null ? '–' : <VerdictMark shape={judged.word} />}
    </Link>
  );
}
