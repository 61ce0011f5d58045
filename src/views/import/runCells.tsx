import type { JudgedRow } from '../../exchange/importRuns.ts';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime, dlcoTyped, litres, plain } from '../parts/figures.ts';
import { routeWords } from '../parts/words.ts';

/** A row as it was understood, in the trade's columns: what a person compares with the file. */
export function UnderstoodHead() {
  return (
    <>
      <th scope="col">Made at</th>
      <th scope="col">Analyzer</th>
      <th data-number scope="col">
        VA, L
      </th>
      <th data-number scope="col">
        Simulated VA, L
      </th>
      <th data-number scope="col">
        DLCO
      </th>
      <th data-number scope="col">
        °C
      </th>
      <th data-number scope="col">
        Pressure
      </th>
      <th scope="col">By</th>
    </>
  );
}

export const understoodColumns = 8;

export function UnderstoodCells({ run, simulatedVaL }: Pick<JudgedRow, 'run' | 'simulatedVaL'>) {
  const { logbook } = useLogbook();
  if (run === null) return null;
  const { reading, ambient, pressureAsTyped } = run;
  return (
    <>
      <td data-nowrap>{dayAndTime(run.madeAt)}</td>
      <td>
        {logbook.analyzers.get(run.analyzerId)?.description.label}
        {/* The rarer route is named, the other goes without saying. */}
        {run.route === 'built-in' ? `, ${routeWords[run.route].toLowerCase()}` : ''}
      </td>
      <td data-number>
        {plain(reading.vaL)} <span className="unit">{reading.vaReportedAs}</span>
      </td>
      <td data-number>{simulatedVaL === null ? '–' : litres(simulatedVaL)}</td>
      <td data-number>
        {dlcoTyped(reading.dlco, reading.dlcoUnit)} <span className="unit">{reading.dlcoUnit}</span>
      </td>
      <td data-number>{plain(ambient.temperatureC)}</td>
      <td data-number>
        {plain(pressureAsTyped.value)} <span className="unit">{pressureAsTyped.unit}</span>
      </td>
      <td>{logbook.technologists.get(run.technologistId)?.initials}</td>
    </>
  );
}
