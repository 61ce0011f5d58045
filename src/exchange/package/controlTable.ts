/** The controls besides the syringe: a row for a person’s test, and one for each level of a simulator’s session. */
import type { Chosen } from './chosen.ts';
import { type ControlRow, controlColumns } from './controlColumns.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

export function controlTable({ logbook, controls }: PackageSource, chosen: Chosen): PackageTable {
  const rows = logbook.controls
    .filter(({ control: { analyzerId, madeAt } }) => chosen.concerns(analyzerId) && chosen.isWithin(madeAt))
    .flatMap((logged): ControlRow[] => {
      const assessment = controls.get(logged.id);
      const levels = logged.control.kind === 'simulator' ? logged.control.levels : [null];
      return levels.map((level) => ({ logbook, logged, level, assessment }));
    });
  return tableOf({
    name: 'controls',
    title: 'Biological controls and simulator sessions',
    description:
      'A row for each test of an analyzer by a healthy person known by a code, and for each level of a session with a precision-gas simulator, in the order they were made.',
    columns: controlColumns,
    rows,
    primaryKey: ['control_id', 'part'],
    foreignKeys: [
      keyTo('analyzer_id', 'analyzers'),
      keyTo('subject_id', 'subjects'),
      keyTo('cylinder_id', 'cylinders'),
      keyTo('entry_id', 'audit-trail'),
    ],
    entriesOf: ({ logged }) => [logged.entry, ...logged.amendments],
  });
}
