import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { RunLink, RunVerdict } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import type { PairRow, QuantityCells } from './buildPairRows.ts';
import { differenceSentence, summarize } from './buildPairStory.ts';
import type { Comparison } from './comparison.ts';
import { type DifferenceScale, differenceScale } from './differenceScale.ts';

/** The newest pair side by side, and what it says. */
export function NewestPair({ comparison, row }: { comparison: Comparison; row: PairRow }) {
  const pair = comparison.pairs.at(-1);
  if (pair === undefined) return null;
  const vaScale = differenceScale('va', comparison.dlcoUnit);
  const dlcoScale = differenceScale('dlco', comparison.dlcoUnit);
  const { tone, title, advice } = summarize(pair);
  return (
    <section className="stack">
      <h2>Newest pair, {row.day}</h2>
      <Notice title={title} tone={tone}>
        <p>{differenceSentence(pair.va, vaScale)}</p>
        <p>{differenceSentence(pair.dlco, dlcoScale)}</p>
        {advice === '' ? null : <p>{advice}</p>}
      </Notice>
      <TableFrame label="The newest pair side by side">
        <table>
          <thead>
            <tr>
              <td />
              <th data-number scope="col">
                Patient test
              </th>
              <th data-number scope="col">
                Built-in routine
              </th>
              <th data-number scope="col">
                Apart
              </th>
              <th data-number scope="col">
                Usually
              </th>
              <th data-number scope="col">
                z
              </th>
            </tr>
          </thead>
          <tbody>
            <Runs row={row} />
            <Figures cells={row.va} name="Simulated VA" scale={vaScale} />
            <Figures cells={row.dlco} name="DLCO" scale={dlcoScale} />
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}

function Runs({ row: { patientTest, builtIn } }: { row: PairRow }) {
  return (
    <tr>
      <th scope="row">Run</th>
      <Run run={patientTest} />
      <Run run={builtIn} />
      <td colSpan={3} />
    </tr>
  );
}

function Run({ run }: { run: LoggedRun }) {
  const { logbook, assessments } = useLogbook();
  return (
    <td data-number>
      <RunLink run={run} technologists={logbook.technologists} />
      <br />
      <RunVerdict assessments={assessments} run={run} />
    </td>
  );
}

function Figures({ name, cells, scale }: { name: string; cells: QuantityCells; scale: DifferenceScale }) {
  return (
    <tr>
      <th data-nowrap scope="row">
        {name}
      </th>
      <td data-number>
        {cells.patientTest} <span className="unit">{scale.readingUnit}</span>
      </td>
      <td data-number>
        {cells.builtIn} <span className="unit">{scale.readingUnit}</span>
      </td>
      <td data-number>
        {cells.difference} <span className="unit">{scale.unit}</span>
      </td>
      <td data-number>
        {cells.usual} {cells.usual === '–' ? null : <span className="unit">{scale.unit}</span>}
      </td>
      <td data-number>{cells.z}</td>
    </tr>
  );
}
