import { FigureList } from '../parts/figureList.tsx';
import { TableFrame } from '../parts/tableFrame.tsx';
import type { MethodBlock } from './methodModel.ts';

export function MethodBlocks({ blocks }: { blocks: readonly MethodBlock[] }) {
  return blocks.map((block) => <Block block={block} key={keyOf(block)} />);
}

/** No two blocks of a part say the same. */
function keyOf(block: MethodBlock): string {
  switch (block.kind) {
    case 'text':
    case 'equation':
      return block.text;
    case 'facts':
      return block.lead;
    case 'table':
      return block.caption;
  }
}

function Block({ block }: { block: MethodBlock }) {
  switch (block.kind) {
    case 'text':
      return <p>{block.text}</p>;
    case 'equation':
      return <p className="method__equation">{block.text}</p>;
    case 'facts':
      return (
        <div>
          <h3>{block.lead}</h3>
          <FigureList rows={block.rows} />
        </div>
      );
    case 'table':
      return <BlockTable block={block} />;
  }
}

function BlockTable({
  block: { caption, columns, rows },
}: {
  block: Extract<MethodBlock, { kind: 'table' }>;
}) {
  return (
    <TableFrame label={caption}>
      <table className="method__table">
        <caption>{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ head, isNumber }) => (
              <th data-number={isNumber} key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells) => (
            <tr key={cells.join(' ')}>
              {columns.map(({ head, isNumber }, index) =>
                index === 0 ? (
                  <th key={head} scope="row">
                    {cells[index]}
                  </th>
                ) : (
                  <td data-number={isNumber} key={head}>
                    {cells[index]}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  );
}
