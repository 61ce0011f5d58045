import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { equipmentRows, type EquipmentRow as Row } from './equipmentRows.ts';
import { equipmentStates, type StateInWords } from './equipmentStates.ts';
import { StateMark } from './stateMark.tsx';
import { useEquipmentDue } from './useEquipmentDue.ts';

/** The left page: everything the laboratory works with, and at its end what it works with no longer. */
export function EquipmentList({ chosen }: { chosen: { kind: string; id: string } }) {
  const { logbook } = useLogbook();
  const { due, now } = useEquipmentDue();
  const states = equipmentStates(logbook, due, now);
  const rows = equipmentRows(logbook);
  const inUse = rows.filter(({ retired }) => retired === null);
  const gone = rows.filter(({ retired }) => retired !== null);
  const list = { chosen, states };
  const group = (kind: Row['kind']) => inUse.filter((row) => row.kind === kind);
  return (
    <div className="stack stack--loose">
      <h1>Equipment</h1>
      <Group {...list} add="an analyzer" kind="analyzer" rows={group('analyzer')} title="Analyzers" />
      <Group {...list} add="a syringe" kind="syringe" rows={group('syringe')} title="Syringes" />
      <Group
        {...list}
        add="a cylinder"
        kind="cylinder"
        none="None yet: the cylinders of test gas stand here."
        rows={group('cylinder')}
        title="Cylinders"
      />
      <Group
        {...list}
        add="a subject"
        kind="subject"
        none="None yet: people who are tested as biological controls stand here by a code."
        rows={group('subject')}
        title="Subjects"
      />
      <Group {...list} add="a person" kind="person" rows={group('person')} title="People" />
      {gone.length > 0 ? (
        <section className="stack">
          <h2>Retired</h2>
          <Rows {...list} rows={gone.map((row) => ({ ...row, aside: row.kind }))} />
        </section>
      ) : null}
    </div>
  );
}

interface RowsProps {
  rows: readonly Row[];
  chosen: { kind: string; id: string };
  /** By id. */
  states: ReadonlyMap<string, StateInWords>;
}

function Group({
  title,
  kind,
  add,
  none,
  ...list
}: {
  title: string;
  kind: Row['kind'];
  /** With its article. */
  add: string;
  none?: string;
} & RowsProps) {
  return (
    <section className="stack">
      <div className="line line--apart line--baseline">
        <h2>{title}</h2>
        <Link href={`/equipment/new/${kind}`}>Add {add}</Link>
      </div>
      {list.rows.length === 0 && none !== undefined ? <p className="quiet small">{none}</p> : null}
      <Rows {...list} />
    </section>
  );
}

function Rows({ rows, chosen, states }: RowsProps) {
  return (
    <ul className="choose-list">
      {rows.map(({ kind, id, name, aside, retired }) => {
        const state = retired === null ? states.get(id) : undefined;
        return (
          <li key={id}>
            <Link
              aria-current={chosen.kind === kind && chosen.id === id ? 'true' : undefined}
              href={`/equipment/${kind}/${id}`}
            >
              <span>{name}</span> <span className="quiet small">{aside}</span>
              {state ? <StateMark {...state} /> : null}
            </Link>
          </li>
        );
      })}
    </ul>
  );
}
