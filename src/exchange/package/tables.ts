/** Every table of an assessor's package, in the order in which a person would read them. */
import type { Entry } from '../../journal/entries.ts';
import { aboutFailureTables } from './aboutFailureTables.ts';
import { baselineTable } from './baselineTable.ts';
import { checkTables } from './checkTables.ts';
import { chosenBy } from './chosen.ts';
import { controlTable } from './controlTable.ts';
import { equipmentTables } from './equipmentTables.ts';
import { eventTable } from './eventTable.ts';
import { failureTable } from './failureTable.ts';
import { limitTable } from './limitTable.ts';
import { policyTable } from './policyTable.ts';
import { runTable } from './runTable.ts';
import { signOffTable } from './signOffTable.ts';
import type { PackageScope, PackageSource } from './source.ts';
import type { PackageTable } from './table.ts';
import { trailOf } from './trailScope.ts';
import { chainTables, trailTable } from './trailTables.ts';

/** The tables in a package's scope, and the entries of its audit trail, which is the last of them. */
export function tablesInScope(
  source: PackageSource,
  scope: PackageScope,
): { tables: readonly PackageTable[]; trail: readonly Entry[] } {
  const chosen = chosenBy(scope);
  const failures = failureTable(source, chosen);
  const tables = [
    runTable(source, chosen),
    controlTable(source, chosen),
    ...checkTables(source, chosen),
    failures,
    ...aboutFailureTables(source, chosen, new Set(failures.cellsOf('failure_id'))),
    eventTable(source, chosen),
    ...equipmentTables(source, chosen),
    baselineTable(source, chosen),
    limitTable(source, chosen),
    policyTable(source, scope, chosen),
    signOffTable(source, chosen),
  ];
  const restedOn = new Set(tables.flatMap(({ entryIds }) => entryIds));
  const trail = trailOf(source, chosen, restedOn);
  return { tables: [...tables, trailTable(source, trail)], trail };
}

/** Those, and the chains of the whole journal. */
export function packageTables(source: PackageSource, scope: PackageScope): readonly PackageTable[] {
  const { tables, trail } = tablesInScope(source, scope);
  return [...tables, ...chainTables(source, trail)];
}
