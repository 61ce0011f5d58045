/** What the list of the equipment holds, a row for each record, those no longer in use among them. Pure. */
import type { Logbook, Retirement } from '../../journal/logbook.ts';
import { roleWords } from '../parts/words.ts';
import { carriersOf } from './fittedCylinders.ts';

export interface EquipmentRow {
  kind: 'analyzer' | 'syringe' | 'cylinder' | 'subject' | 'person';
  id: string;
  name: string;
  aside: string;
  retired: Retirement | null;
}

export function equipmentRows(logbook: Logbook): EquipmentRow[] {
  return [
    ...[...logbook.analyzers.values()].map(({ id, description, retired }) => ({
      kind: 'analyzer' as const,
      id,
      name: description.label,
      aside: description.place,
      retired,
    })),
    ...[...logbook.syringes.values()].map(({ id, description, retired }) => ({
      kind: 'syringe' as const,
      id,
      name: description.label,
      aside: description.serial,
      retired,
    })),
    ...[...logbook.cylinders.values()].map(({ id, description, retired }) => ({
      kind: 'cylinder' as const,
      id,
      name: description.label,
      aside: carriersOf(logbook, id)
        .map((on) => `on ${on}`)
        .join(', '),
      retired,
    })),
    ...[...logbook.subjects.values()].map(({ id, description, retired }) => ({
      kind: 'subject' as const,
      id,
      name: description.code,
      aside: description.note,
      retired,
    })),
    ...[...logbook.technologists.values()].map(({ id, name, initials, role, retired }) => ({
      kind: 'person' as const,
      id,
      name: `${initials}  ${name}`,
      aside: roleWords[role],
      retired,
    })),
  ];
}
