import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { roleWords } from '../parts/words.ts';

interface Row {
  id: string;
  name: ReactNode;
  aside: string;
  retired: boolean;
}

/** The left page: everything the laboratory works with, retired things last in each group. */
export function EquipmentList({ chosen }: { chosen: { kind: string; id: string } }) {
  const { logbook } = useLogbook();
  const analyzers = [...logbook.analyzers.values()].map(({ id, description, retired }) => ({
    id,
    name: description.label,
    aside: description.place,
    retired: retired !== null,
  }));
  const syringes = [...logbook.syringes.values()].map(({ id, description, retired }) => ({
    id,
    name: description.label,
    aside: description.serial,
    retired: retired !== null,
  }));
  const people = [...logbook.technologists.values()].map(({ id, name, initials, role, retired }) => ({
    id,
    name: `${initials}  ${name}`,
    aside: roleWords[role],
    retired: retired !== null,
  }));
  return (
    <div className="stack stack--loose">
      <h1>Equipment</h1>
      <Group add="analyzer" chosen={chosen} kind="analyzer" rows={analyzers} title="Analyzers" />
      <Group add="syringe" chosen={chosen} kind="syringe" rows={syringes} title="Syringes" />
      <Group add="person" chosen={chosen} kind="person" rows={people} title="People" />
    </div>
  );
}

function Group({
  title,
  kind,
  add,
  rows,
  chosen,
}: {
  title: string;
  kind: string;
  add: string;
  rows: readonly Row[];
  chosen: { kind: string; id: string };
}) {
  const ordered = [...rows.filter(({ retired }) => !retired), ...rows.filter(({ retired }) => retired)];
  return (
    <section className="stack">
      <div className="line line--apart line--baseline">
        <h2>{title}</h2>
        <Link href={`/equipment/new/${add}`}>
          Add {add === 'person' ? 'a person' : `a${add === 'analyzer' ? 'n' : ''} ${add}`}
        </Link>
      </div>
      <ul className="choose-list">
        {ordered.map(({ id, name, aside, retired }) => (
          <li key={id}>
            <Link
              aria-current={chosen.kind === kind && chosen.id === id ? 'true' : undefined}
              href={`/equipment/${kind}/${id}`}
            >
              <span>{name}</span> <span className="quiet small">{retired ? 'retired' : aside}</span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
