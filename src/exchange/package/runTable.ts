/** The runs, by the columns of the runs' own CSV file: what one says of a run, the other says in the same words. */
import { chainHeads } from '../../journal/chain.ts';
import { runColumns } from '../runColumns.ts';
import type { Chosen } from './chosen.ts';
import type { PackageSource } from './source.ts';
import { keyTo, type PackageTable, tableOf } from './table.ts';

export function runTable({ logbook, assessments, rawRows }: PackageSource, chosen: Chosen): PackageTable {
  const heads = chainHeads(rawRows);
  const rows = logbook.runs
    .filter(({ body }) => chosen.concerns(body.analyzerId) && chosen.isWithin(body.madeAt))
    .map((run) => ({
      run,
      logbook,
      assessment: assessments.get(run.id),
      head: heads.get(run.entry.workstation),
    }));
  return tableOf({
    name: 'runs',
    title: 'Simulations with a syringe',
    description:
      'A row for each run in the order they were made, those that were struck out too. The logbook’s import reads this file as it stands.',
    columns: runColumns,
    rows,
    primaryKey: ['run_id'],
    foreignKeys: [
      keyTo('analyzer_id', 'analyzers'),
      keyTo('syringe_id', 'syringes'),
      keyTo('technologist_id', 'people'),
      keyTo('workstation', 'chain-heads'),
      keyTo('entry_id', 'audit-trail'),
    ],
    entriesOf: ({ run }) => [run.entry, ...run.amendments],
  });
}
