import { useId } from 'react';
import { TableFrame } from '../parts/tableFrame.tsx';
import type { NoticeRow, NoticeTable } from './buildNotice.ts';

/** One series: its own SD, the page in one sentence, and every shift by the rules and by the published limits. */
export function NoticeOfSeries({ table }: { table: NoticeTable }) {
  const headingId = useId();
  return (
    <section aria-labelledby={headingId} className="stack group">
      <h3 id={headingId}>{table.heading}</h3>
      {table.missing === '' ? (
        <>
          <p className="notice-told">{table.told}</p>
          <p className="notice-figures">
            {table.figures.map(({ name, value, unit }) => (
              <span key={name}>
                <span className="quiet">{name}</span> {value} <span className="unit">{unit}</span>
              </span>
            ))}
          </p>
        </>
      ) : (
        <p>{table.missing}</p>
      )}
      <p>{table.published}</p>
      {table.rows.length === 0 ? null : <Waits table={table} />}
    </section>
  );
}

function Waits({ table: { heading, rows, shiftUnit } }: { table: NoticeTable }) {
  const hasWhatIf = rows.some(({ whatIf }) => whatIf !== null);
  return (
    <TableFrame label={`How soon: ${heading}`}>
      <table className="notice-table">
        <thead>
          <tr>
            <th rowSpan={2} scope="col">
              Shift <span className="unit">{shiftUnit}</span>
            </th>
            <th data-number rowSpan={2} scope="col">
              SD
            </th>
            <th colSpan={hasWhatIf ? 2 : 1} scope="colgroup">
              Own rules
            </th>
            <th colSpan={2} scope="colgroup">
              Published limits alone
            </th>
          </tr>
          <tr>
            <th scope="col">In force</th>
            {hasWhatIf ? <th scope="col">What if</th> : null}
            <th scope="col">Upwards</th>
            <th scope="col">Downwards</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Wait key={row.shift} row={row} />
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}

function Wait({ row: { shift, inSd, inForce, whatIf, publishedUp, publishedDown } }: { row: NoticeRow }) {
  return (
    <tr>
      <th scope="row">{shift}</th>
      <td data-number>{inSd}</td>
      <td data-nowrap>{inForce}</td>
      {whatIf === null ? null : (
        <td data-changed={whatIf === inForce ? undefined : true} data-nowrap>
          {whatIf}
        </td>
      )}
      <td>{publishedUp}</td>
      <td>{publishedDown}</td>
    </tr>
  );
}
