import { Notice } from '../parts/notice.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import type { PackageContents } from './packageDesk.ts';
import type { Counting } from './usePackage.ts';

/** The right page: each file that will be in the package, and how many rows it has. Null while period or analyzers are missing. */
export function Contents({ counting }: { counting: Counting | null }) {
  if (counting === null) {
    return (
      <p className="quiet">What will be in it stands here as soon as period and analyzers are chosen.</p>
    );
  }
  switch (counting.state) {
    case 'counting':
      return <p className="quiet">What will be in it is being counted…</p>;
    case 'failed':
      return (
        <Notice title="What will be in it could not be counted." tone="fail" urgent>
          <p>{counting.problem}</p>
        </Notice>
      );
    case 'counted':
      return <Counted contents={counting.contents} />;
  }
}

function Counted({ contents: { tables, entries, inTrail } }: { contents: PackageContents }) {
  const runs = tables.find(({ name }) => name === 'runs')?.rowCount ?? 0;
  const left = entries - inTrail;
  return (
    <div className="stack stack--loose">
      <section className="stack">
        <h2>What will be in it</h2>
        {runs === 0 ? (
          <p>No run of these analyzers was made in this period: is it the one you mean?</p>
        ) : null}
        <TableFrame label="Files of the package">
          <table className="package-files">
            <thead>
              <tr>
                <th scope="col">File</th>
                <th scope="col">Holds</th>
                <th data-number scope="col">
                  Rows
                </th>
              </tr>
            </thead>
            <tbody>
              {tables.map(({ name, title, description, rowCount }) => (
                <tr data-empty={rowCount === 0 ? true : undefined} key={name}>
                  <td data-nowrap>{name}.csv</td>
                  <td title={description}>{title}</td>
                  <td data-number>{rowCount}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableFrame>
        <p className="small quiet">
          And in any case the chains with their heads, datapackage.json, which describes every column, and
          README.txt.
        </p>
      </section>
      <section className="stack group">
        <h2>What stays out</h2>
        <p>
          {left === 0
            ? 'Nothing: every entry of the journal is in the audit trail.'
            : `${left} of the ${entries} entries of the journal are of other times or about other analyzers. Their numbers and hashes are in it, so that the chains can be followed; what they say is not.`}
        </p>
        <p>
          Names and initials of everyone who writes in the logbook are in it. Patients are not: the logbook
          does not know them. A biological control is a code.
        </p>
      </section>
    </div>
  );
}
