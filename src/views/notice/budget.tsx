import { TableFrame } from '../parts/tableFrame.tsx';
import type { BudgetTable } from './buildBudget.ts';

/** How well a simulated VA can be known at best, and what that says of the SD of the runs. */
export function Budget({ table }: { table: BudgetTable | null }) {
  return (
    <section className="stack group">
      <h3>How well a simulated VA can be known</h3>
      {table === null ? (
        <p>No budget: the room or the VA of the newest run lies at the edge of what can be.</p>
      ) : (
        <Sources table={table} />
      )}
    </section>
  );
}

function Sources({ table }: { table: BudgetTable }) {
  return (
    <>
      <p>{table.of}</p>
      <TableFrame label="Uncertainty budget">
        <table className="notice-table">
          <thead>
            <tr>
              <th scope="col">Source</th>
              <th scope="col">Known to</th>
              <th data-number scope="col">
                Adds <span className="unit">mL</span>
              </th>
              <th data-number scope="col">
                Share <span className="unit">%</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {table.rows.map(({ source, knownTo, addsMl, sharePercent }) => (
              <tr key={source}>
                <th scope="row">{source}</th>
                <td>{knownTo}</td>
                <td data-number>{addsMl}</td>
                <td data-number>{sharePercent}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
      <p>{table.standard}</p>
      {table.comparisons.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p className="small quiet">
        {table.thresholds} By the GUM: each source may lie anywhere within its bounds. Syringe and barometer
        as published, temperature and dead space as is common practice.
      </p>
    </>
  );
}
