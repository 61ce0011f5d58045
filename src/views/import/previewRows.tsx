import { useMemo } from 'react';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import { judgeImport } from '../../exchange/importRuns.ts';
import { counted } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { readMeasured } from '../runForm/readMeasured.ts';
import { UnderstoodCells, UnderstoodHead, understoodColumns } from './runCells.tsx';
import type { Mapping } from './useImport.ts';

/** The first rows as they would be read now, beside what the file says. */
export function PreviewRows({ mapping, known }: { mapping: Mapping; known: KnownLogbook }) {
  const { outline } = mapping.file;
  const rows = useMemo(
    () => judgeImport({ rows: outline.firstRows }, mapping.plan, known, readMeasured).rows,
    [outline, mapping.plan, known],
  );
  return (
    <div className="stack stack--loose">
      <section className="stack">
        <h2>The first {counted(rows.length, 'row')} as understood</h2>
        <p className="quiet">
          Dates in the time zone of this computer, {known.zone}. Simulated VA is near 3 L where units and
          conversion are right.
        </p>
        <TableFrame label="The first rows as understood">
          <table className="understood">
            <thead>
              <tr>
                <th data-number scope="col">
                  Row
                </th>
                <UnderstoodHead />
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.row}>
                  <td data-number>{row.row}</td>
                  {row.run === null ? (
                    <td colSpan={understoodColumns}>{row.reasons.join(' ')}</td>
                  ) : (
                    <UnderstoodCells run={row.run} simulatedVaL={row.simulatedVaL} />
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
      </section>
      <section className="stack group">
        <h2>As they stand in the file</h2>
        <TableFrame label="The first rows as they stand in the file">
          <table>
            <thead>
              <tr>
                <th data-number scope="col">
                  Row
                </th>
                {outline.header.map((name, index) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two columns can have the same name; the place is what they are.
                  <th key={index} scope="col">
                    {name}
                    {outline.units[index] ? <span className="unit"> {outline.units[index]}</span> : null}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {outline.firstRows.map(({ row, cells }) => (
                <tr key={row}>
                  <td data-number>{row}</td>
                  {outline.header.map((_, index) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: see above.
                    <td key={index}>{shortened(cells[index] ?? '')}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
      </section>
    </div>
  );
}

const longestShown = 60;
const shortened = (text: string) => (text.length > longestShown ? `${text.slice(0, longestShown)}…` : text);
