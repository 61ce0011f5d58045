import type { ReactNode } from 'react';
import { StillChart } from '../charting/stillChart.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import type { Block, Cell, Column } from './reportModel.ts';

/** One block of a report on its paper. `of`: of which chapter, for those who hear what they are in. */
export function BlockView({ block, of }: { block: Block; of: string }): ReactNode {
  switch (block.kind) {
    case 'words':
      return (
        <p className="report__words" data-tone={block.tone}>
          {block.text}
        </p>
      );
    case 'heading':
      return <h4>{block.text}</h4>;
    case 'facts':
      return (
        <dl className="report__facts" data-columns={areShort(block.rows) ? 'two' : undefined}>
          {block.rows.map(({ name, value }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      );
    case 'lines':
    case 'hashes':
      return (
        <ul className="report__lines" data-kind={block.kind}>
          {block.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      );
    case 'table':
      return <TableView {...block} of={of} />;
    case 'chart':
      return (
        <figure className="report__chart">
          <figcaption>
            <strong>{block.title}</strong> <span className="quiet">{block.caption}</span>
          </figcaption>
          <TableFrame label={`${of}: ${block.title}`}>
            <StillChart model={block.chart} name={`${block.title}. ${block.caption}`} />
          </TableFrame>
        </figure>
      );
    case 'signatures':
      return <SignatureLines roles={block.roles} />;
  }
}

/** Many short facts stand side by side. */
const areShort = (rows: Extract<Block, { kind: 'facts' }>['rows']) =>
  rows.length >= 6 && rows.every(({ name, value }) => name.length <= 26 && value.length <= 44);

/** A table of so few rows is not broken over two pages. */
const shortTable = 12;

function TableView({ caption, columns, rows, of }: Extract<Block, { kind: 'table' }> & { of: string }) {
  return (
    <TableFrame label={`${of}: ${caption}`}>
      <table className="report__table" data-short={rows.length <= shortTable || undefined}>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <HeadCell column={column} key={column.head} />
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a report stand still and have no names of their own.
            <tr key={row}>
              {cells.map((cell, index) => (
                <CellView
                  cell={cell}
                  column={columns[index]}
                  isFirst={index === 0}
                  key={columns[index]?.head}
                />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}

function HeadCell({ column: { head, unit, isNumber, width } }: { column: Column }) {
  return (
    <th
      data-number={isNumber || undefined}
      scope="col"
      style={width === undefined ? undefined : { width: `${width}%` }}
    >
      {head}
      {unit === undefined ? null : <span className="unit"> {unit}</span>}
    </th>
  );
}

function CellView({ cell, column, isFirst }: { cell: Cell; column: Column | undefined; isFirst: boolean }) {
  const content =
    typeof cell === 'string' ? (
      cell
    ) : (
      <span className="report__verdict" data-shape={cell.mark}>
        <VerdictMark shape={cell.mark} size={12} /> {cell.text}
      </span>
    );
  return isFirst ? (
    <th data-number={column?.isNumber || undefined} scope="row">
      {content}
    </th>
  ) : (
    <td data-number={column?.isNumber || undefined}>{content}</td>
  );
}

/** To be written on by hand. */
function SignatureLines({ roles }: { roles: readonly string[] }) {
  return (
    <div className="report__signatures">
      {roles.map((role) => (
        <div key={role}>
          <p>{role}</p>
          <dl>
            {['Name', 'Date', 'Signature'].map((what) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd />
              </div>
            ))}
          </dl>
        </div>
      ))}
    </div>
  );
}
