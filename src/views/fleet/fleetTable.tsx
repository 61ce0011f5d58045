import { Link } from 'wouter';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import type { FleetRow, FleetSeries } from './buildFleet.ts';
import { runsDrawn } from './seriesInHand.ts';
import { type FleetColumn, nextSorting, type Sorting } from './sortFleet.ts';
import { Sparkline } from './sparkline.tsx';

/** One series a row; what an analyzer has in common stands in each, since the rows may be sorted apart. */
export function FleetTable({
  rows,
  sorting,
  onSort,
}: {
  rows: readonly FleetRow[];
  sorting: Sorting | null;
  onSort: (sorting: Sorting) => void;
}) {
  const head = (column: FleetColumn, words: string, isNumber = false) => (
    <th
      aria-sort={sorting?.column === column ? sorting.direction : undefined}
      data-number={isNumber || undefined}
      scope="col"
    >
      <button data-weight="line" onClick={() => onSort(nextSorting(column, sorting))} type="button">
        {words}
        <span aria-hidden="true">{arrow(column, sorting)}</span>
      </button>
    </th>
  );
  return (
    <TableFrame label="Fleet">
      <table className="fleet-table">
        <caption className="for-readers">Every series of the analyzers in use</caption>
        <thead>
          <tr>
            {head('analyzer', 'Analyzer')}
            <th scope="col">Series</th>
            <th scope="col">Last {runsDrawn} runs</th>
            {head('verdict', 'Last verdict')}
            {head('z', 'z', true)}
            {head('drift', 'Drift')}
            {head('failure', 'Open failure')}
            {head('last', 'Last run')}
            {head('due', 'Next due')}
            <th scope="col">Shifts noticed</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr data-repeats={rows[index - 1]?.analyzer === row.analyzer || undefined} key={row.key}>
              <th scope="row">
                <bdi>{row.analyzer}</bdi>
              </th>
              {row.series === null ? <td colSpan={7}>No run yet</td> : <SeriesCells series={row.series} />}
              <td className="fleet-table__due" data-nowrap data-urgent={row.due.isUrgent || undefined}>
                {row.due.words}
              </td>
              <td data-nowrap>
                {row.series === null ? null : (
                  <Link href={row.series.noticeHref}>
                    how soon<span className="for-readers"> on {row.analyzer}</span>
                  </Link>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}

function arrow(column: FleetColumn, sorting: Sorting | null): string {
  if (sorting?.column !== column) return '';
  return sorting.direction === 'ascending' ? ' ↑' : ' ↓';
}

function SeriesCells({ series }: { series: FleetSeries }) {
  const { name, chartHref, sparkline, mark, markWord, zWords, drift, failure, last } = series;
  return (
    <>
      <td data-nowrap>
        <Link href={chartHref}>{name}</Link>
      </td>
      <td className="fleet-table__chart">
        <Sparkline model={sparkline} name={name} />
      </td>
      <td data-nowrap>
        <span className="badge__word" data-shape={mark}>
          <VerdictMark shape={mark} size={14} />
          {markWord}
        </span>
      </td>
      <td data-number>{zWords}</td>
      <td data-nowrap>
        <span className={drift.hasMoved ? 'fleet-table__moved' : undefined}>{drift.words}</span>{' '}
        <span className="unit">{drift.size}</span>
      </td>
      <td data-nowrap>
        {failure === null ? (
          <span className="quiet">
            <span aria-hidden="true">–</span>
            <span className="for-readers">none</span>
          </span>
        ) : (
          <Link href={failure.href}>since {failure.since}</Link>
        )}
      </td>
      <td data-nowrap>
        <Link href={last.href}>{last.words}</Link>
      </td>
    </>
  );
}
