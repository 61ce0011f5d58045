import type { Quantity } from '../../core/index.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { quantities } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { RunLink, RunVerdict } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { notKnown, type PairRow, type QuantityCells } from './buildPairRows.ts';
import { differenceSentence, summarize } from './buildPairStory.ts';
import type { Comparison } from './comparison.ts';
import { differenceScale } from './differenceScale.ts';

const noUnits = { va: '', dlco: '' };

/** The newest pair side by side, and what it says. */
export function NewestPair({ comparison, row }: { comparison: Comparison; row: PairRow }) {
  const pair = comparison.pairs.at(-1);
  if (pair === undefined) return null;
  const vaScale = differenceScale('va', comparison.dlcoUnit);
  const dlcoScale = differenceScale('dlco', comparison.dlcoUnit);
  const readingUnits = { va: vaScale.readingUnit, dlco: dlcoScale.readingUnit };
  const units = { va: vaScale.unit, dlco: dlcoScale.unit };
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
        <table className="pair-figures">
          <thead>
            <tr>
              <td />
              <th data-number scope="col">
                Simulated VA
              </th>
              <th data-number scope="col">
                DLCO
              </th>
            </tr>
          </thead>
          <tbody>
            <Figures
              figure="patientTest"
              name="Patient test"
              row={row}
              run={row.patientTest}
              units={readingUnits}
            />
            <Figures
              figure="builtIn"
              name="Built-in routine"
              row={row}
              run={row.builtIn}
              units={readingUnits}
            />
            <Figures figure="difference" name="Apart" row={row} units={units} />
            <Figures figure="usual" name="Usually" row={row} units={units} />
            <Figures figure="z" name="z" row={row} units={noUnits} />
          </tbody>
        </table>
      </TableFrame>
    </section>
  );
}

function Figures({
  name,
  run,
  row,
  figure,
  units,
}: {
  name: string;
  run?: LoggedRun;
  row: PairRow;
  figure: Exclude<keyof QuantityCells, 'finding'>;
  units: Readonly<Record<Quantity, string>>;
}) {
  return (
    <tr>
      <th scope="row">
        {name}
        {run ? <Run run={run} /> : null}
      </th>
      {quantities.map((quantity) => (
        <td data-number key={quantity}>
          <span className="pair-figures__figure">{row[quantity][figure]}</span>
          {row[quantity][figure] === notKnown ? null : <span className="unit"> {units[quantity]}</span>}
        </td>
      ))}
    </tr>
  );
}

function Run({ run }: { run: LoggedRun }) {
  const { logbook, assessments } = useLogbook();
  return (
    <div className="pair-figures__run">
      <RunLink run={run} technologists={logbook.technologists} />{' '}
      <RunVerdict assessments={assessments} run={run} />
    </div>
  );
}
