import type { ComparedRow } from '../charting/overlays.ts';
import { TickField } from '../parts/field.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { type ComparedChoice, mostCompared } from './compareSeries.ts';

/** Which other analyzers are laid over the chart, and what each came to in the part shown. */
export function Comparison({
  choices,
  chosen,
  rows,
  unit,
  onChoose,
}: {
  choices: readonly ComparedChoice[];
  /** Keys in the order in which they were chosen. */
  chosen: readonly string[];
  rows: readonly ComparedRow[];
  unit: string;
  onChoose: (chosen: readonly string[]) => void;
}) {
  if (choices.length === 0) return null;
  const isFull = chosen.length >= mostCompared;
  return (
    <details className="happenings">
      <summary>Compare with other analyzers{chosen.length > 0 ? ` (${chosen.length} chosen)` : ''}</summary>
      <div className="stack comparison">
        <fieldset aria-label="Analyzers to lay over the chart" className="comparison__choices">
          {choices.map(({ key, label }) => (
            <TickField
              checked={chosen.includes(key)}
              disabled={isFull && !chosen.includes(key)}
              key={key}
              label={label}
              onTick={(isChosen) =>
                onChoose(isChosen ? [...chosen, key] : chosen.filter((other) => other !== key))
              }
            />
          ))}
        </fieldset>
        {isFull ? <p className="quiet">{mostCompared} at most: more lines could not be told apart.</p> : null}
        {chosen.length > 0 ? <ComparedTable rows={rows} unit={unit} /> : null}
      </div>
    </details>
  );
}

function ComparedTable({ rows, unit }: { rows: readonly ComparedRow[]; unit: string }) {
  const figure = (value: string) => (
    <td data-number>
      {value} <span className="unit">{value === '–' ? '' : unit}</span>
    </td>
  );
  return (
    <TableFrame label="The lines of the chart">
      <table>
        <caption>The lines of the chart in the part shown</caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Analyzer</th>
            <th data-number scope="col">
              Runs
            </th>
            <th data-number scope="col">
              Mean
            </th>
            <th data-number scope="col">
              SD
            </th>
            <th data-number scope="col">
              Last
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, label, dash, n, mean, sd, last }) => (
            <tr key={key}>
              <td>
                <svg aria-hidden="true" className="comparison__line" focusable="false" height={12} width={60}>
                  <path d="M0 6H60" strokeDasharray={dash} />
                  {dash === '' ? <circle cx={30} cy={6} r={3} /> : null}
                </svg>
                <span className="for-readers">{dash === '' ? 'with dots' : 'broken'}</span>
              </td>
              <td>{label}</td>
              <td data-number>{n}</td>
              {figure(mean)}
              {figure(sd)}
              {figure(last)}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}
