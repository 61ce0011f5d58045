import { useEffect, useRef } from 'react';
import { gasFormulas } from '../gasNames.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { emptyPoint, type GasDraft, mostPoints, type PointDraft } from './checkDraft.ts';
import { readPastedColumns, withPasted } from './pastedPoints.ts';
import { PointRow } from './pointRow.tsx';
import type { ReadGas } from './readLinearity.ts';

/** Dilutions and readings, a row each. Two columns of a table can be pasted into any of its fields. */
export function PointTable({
  gas,
  read,
  tried,
  onPoints,
}: {
  gas: GasDraft;
  read: ReadGas;
  tried: boolean;
  onPoints: (points: readonly PointDraft[]) => void;
}) {
  const { points, unit } = gas;
  const formula = gasFormulas[gas.gas];
  const table = useRef<HTMLTableElement>(null);
  const rows = useRef(points.length);
  useEffect(() => {
    const before = rows.current;
    rows.current = points.length;
    if (points.length === before || document.activeElement?.tagName === 'INPUT') return;
    // A row that was added by its button is typed into next; the button of one that was removed took the focus with it.
    const fields = table.current?.querySelectorAll<HTMLElement>('input[data-field="expected"]');
    fields?.item(fields.length - 1)?.focus();
  }, [points.length]);

  return (
    <>
      <TableFrame label={`Points of ${formula}`}>
        <table className="points" ref={table}>
          <thead>
            <tr>
              <th scope="col">Dilution, {unit}</th>
              <th scope="col">Reads, {unit}</th>
              <th data-number scope="col">
                Off, % of full scale
              </th>
              <th data-number scope="col">
                From the line
              </th>
              <th scope="col">
                <span className="for-readers">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {points.map((point, index) => (
              <PointRow
                formula={formula}
                judged={read.judgedPoints.get(point.key)}
                key={point.key}
                onPaste={(event, field) => {
                  const columns = readPastedColumns(event.clipboardData.getData('text'));
                  if (columns === null) return;
                  event.preventDefault();
                  onPoints(withPasted(points, index, field, columns));
                }}
                onRemove={() => onPoints(points.filter(({ key }) => key !== point.key))}
                onText={(field, text) =>
                  onPoints(points.map((one) => (one.key === point.key ? { ...one, [field]: text } : one)))
                }
                place={index + 1}
                point={point}
                problems={tried ? read.errors.byPoint.get(point.key) : undefined}
              />
            ))}
          </tbody>
        </table>
      </TableFrame>
      {points.length < mostPoints ? (
        <div>
          <button data-weight="line" onClick={() => onPoints([...points, emptyPoint()])} type="button">
            Add a point<span className="for-readers"> to {formula}</span>
          </button>
        </div>
      ) : (
        <p className="quiet small">As many points as can be kept.</p>
      )}
    </>
  );
}
