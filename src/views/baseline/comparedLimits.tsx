import { useMemo } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { TermLine } from '../parts/term.tsx';
import type { Desk } from './baselineRuns.ts';
import type { BaselineScale } from './baselineScale.ts';
import { compareLimits, type LimitsSay } from './compareLimits.ts';

/** What a frozen baseline and rolling limits would each have said of the last runs. */
export function ComparedLimits({ desk, scale }: { desk: Desk; scale: BaselineScale }) {
  const { logbook } = useLogbook();
  const comparison = useMemo(() => compareLimits(desk, logbook), [desk, logbook]);
  if (comparison === null) return null;
  const { rows, summary, drift, hasWalked } = comparison;
  const kind = desk.policy.limits === 'baseline' ? 'A frozen baseline is' : 'Rolling limits are';
  return (
    <section className="stack group">
      <h2>Frozen or rolling</h2>
      <p>
        {kind} in force. {summary}
      </p>
      {hasWalked ? <Notice title={drift} tone="warn" /> : <p>{drift}</p>}
      <TermLine ids={['drift']} />
      <TableFrame label="A frozen baseline and rolling limits on the last runs">
        <table>
          <thead>
            <tr>
              <th rowSpan={2} scope="col">
                Made at
              </th>
              <th data-number rowSpan={2} scope="col">
                <span className="unit">{scale.unit}</span>
              </th>
              <th colSpan={2} scope="colgroup">
                Frozen baseline
              </th>
              <th colSpan={2} scope="colgroup">
                Rolling
              </th>
            </tr>
            <tr>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
              <th data-number scope="col">
                z
              </th>
              <th scope="col">Rules</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ run, value, baseline, rolling }) => (
              <tr key={run.id}>
                <td data-nowrap>
                  <RunLink run={run} technologists={logbook.technologists} />
                </td>
                <td data-number>{scale.value(value)}</td>
                <Say say={baseline} />
                <Say say={rolling} />
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p className="quiet small">
        By today’s rules, of this baseline’s runs only. Which kind judges is set under Laboratory.
      </p>
    </section>
  );
}

function Say({ say: { z, rules } }: { say: LimitsSay }) {
  return (
    <>
      <td data-number data-nowrap>
        {z}
      </td>
      <td>{rules || '–'}</td>
    </>
  );
}
