import { useState } from 'react';
import { type ImportJudgement, type JudgedRow, type RowState, rowStates } from '../../exchange/importRuns.ts';
import { counted } from '../parts/figures.ts';
import { TableFrame } from '../parts/tableFrame.tsx';
import { type MarkShape, VerdictMark } from '../parts/verdictMark.tsx';
import { stateWords } from './importWords.ts';
import { UnderstoodCells, UnderstoodHead } from './runCells.tsx';

/** The verdict's marks mean here what they mean elsewhere: in order, to be looked at, out, and nothing to say. */
const shapes: Record<RowState, MarkShape> = {
  accepted: 'pass',
  warning: 'warn',
  refused: 'fail',
  there: 'establishing',
};

const reasonWords: Record<Exclude<RowState, 'accepted'>, string> = {
  warning: 'To look at',
  refused: 'Why it is refused',
  there: 'Where it is',
};

const atATime = 100;

/** Every row with what becomes of it, one kind at a time. */
export function JudgedRows({ rows, counts }: ImportJudgement) {
  const [state, setState] = useState<RowState>(
    () =>
      (['refused', 'warning', 'accepted', 'there'] as const).find((each) => counts[each] > 0) ?? 'accepted',
  );
  const [most, setMost] = useState(atATime);
  const chosen = rows.filter((row) => row.state === state);
  const shown = chosen.slice(0, most);
  return (
    <section className="stack">
      <h2>Every row judged</h2>
      <fieldset className="line row-filter">
        <legend className="for-readers">Rows shown</legend>
        {rowStates.map((each) => (
          <label data-chosen={each === state} key={each}>
            <input
              checked={each === state}
              name="rows-shown"
              onChange={() => {
                setState(each);
                setMost(atATime);
              }}
              type="radio"
            />
            <span data-shape={shapes[each]}>
              <VerdictMark shape={shapes[each]} size={14} />
            </span>
            {stateWords[each]} {counts[each]}
          </label>
        ))}
      </fieldset>
      {shown.length === 0 ? (
        <p className="quiet">No row of this kind.</p>
      ) : (
        <>
          <TableFrame label={`Rows: ${stateWords[state]}`}>
            <table className="understood">
              <thead>
                <tr>
                  <th data-number scope="col">
                    Row
                  </th>
                  {state === 'accepted' ? null : <th scope="col">{reasonWords[state]}</th>}
                  {state === 'refused' ? null : <UnderstoodHead />}
                </tr>
              </thead>
              <tbody>
                {shown.map((row) => (
                  <JudgedLine key={row.row} row={row} />
                ))}
              </tbody>
            </table>
          </TableFrame>
          {chosen.length > shown.length ? (
            <div className="line">
              <button onClick={() => setMost(most + atATime * 5)} type="button">
                Show more
              </button>
              <span className="quiet">
                {shown.length} of {counted(chosen.length, 'row')}
              </span>
            </div>
          ) : null}
        </>
      )}
    </section>
  );
}

function JudgedLine({ row: { row, state, run, simulatedVaL, reasons } }: { row: JudgedRow }) {
  return (
    <tr>
      <td data-number>{row}</td>
      {state === 'accepted' ? null : <td className="row-reason">{reasons.join(' ')}</td>}
      <UnderstoodCells run={run} simulatedVaL={simulatedVaL} />
    </tr>
  );
}
