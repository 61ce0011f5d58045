import type { ReactNode } from 'react';

/** Names and what stands for them, one below the other. */
export function FigureList({ rows }: { rows: readonly { name: string; value: ReactNode }[] }) {
  return (
    <dl className="figures">
      {rows.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
