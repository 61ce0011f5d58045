import { TableFrame } from '../parts/tableFrame.tsx';
import type { Epoch } from './baselineRuns.ts';
import type { BaselineScale } from './baselineScale.ts';
import { compareEpochs } from './compareEpochs.ts';

/** The baseline before a new one was begun, and the one that it began. */
export function ComparedEpochs({
  before,
  inForce,
  scale,
}: {
  before: Epoch;
  inForce: Epoch;
  scale: BaselineScale;
}) {
  const { rows, sentences } = compareEpochs(before, inForce, scale);
  return (
    <section className="stack group">
      <h2>Against the baseline before</h2>
      <TableFrame label="The baseline in force and the one before">
        <table>
          <thead>
            <tr>
              <th scope="col">Baseline</th>
              <th data-number scope="col">
                Runs
              </th>
              <th data-number scope="col">
                Mean
              </th>
              <th data-number scope="col">
                SD
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ name, count, mean, sd }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td data-number>{count}</td>
                <td data-number>{mean}</td>
                <td data-number>{sd}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </section>
  );
}
