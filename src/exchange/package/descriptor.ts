/** The description of a package: what each file is, and of every column its type, unit and meaning. */
import type { ColumnFacts } from '../columns.ts';
import type { PackageScope } from './source.ts';
import type { ForeignKey, PackageTable } from './table.ts';

/** How every file of a package is written. */
export const dialect = {
  delimiter: ',',
  lineTerminator: '\r\n',
  quoteChar: '"',
  doubleQuote: true,
  skipInitialSpace: false,
  header: true,
  caseSensitiveHeader: true,
} as const;

export interface WrittenFile {
  table: PackageTable;
  path: string;
  bytes: number;
  /** SHA-256 of the file's bytes. */
  hash: string;
}

export interface PackageFacts {
  scope: PackageScope;
  /** ISO 8601 instant in UTC at which it was made. */
  madeAt: string;
  /** As the laboratory calls itself; empty where it does not. */
  laboratory: string;
  /** Labels of the analyzers that it is about. */
  analyzers: readonly string[];
}

/** By the Frictionless Data Package specification, version 1, profile tabular-data-package. */
export function descriptorOf(files: readonly WrittenFile[], facts: PackageFacts) {
  const { scope, madeAt, laboratory, analyzers } = facts;
  const held = keysThatHold(files.map(({ table }) => table));
  return {
    profile: 'tabular-data-package',
    name: `dlco-qc-${scope.from}-to-${scope.to}`,
    title: `Quality control of DLCO analyzers${laboratory === '' ? '' : `, ${laboratory}`}`,
    description: `Simulations, controls and checks from ${scope.from} to ${scope.to}, by the days in ${scope.zone}, of: ${analyzers.join(', ')}. README.txt explains it in plain words.`,
    created: madeAt,
    period: { from: scope.from, to: scope.to, zone: scope.zone },
    analyzers: scope.analyzerIds.map((id, index) => ({ id, label: analyzers[index] ?? '' })),
    resources: files.map(({ table, path, bytes, hash }) => ({
      profile: 'tabular-data-resource',
      name: table.name,
      path,
      title: table.title,
      description: table.description,
      format: 'csv',
      mediatype: 'text/csv',
      encoding: 'utf-8',
      bytes,
      hash: `sha256:${hash}`,
      rows: table.rowCount,
      dialect,
      schema: {
        fields: table.columns.map(fieldOf),
        missingValues: [''],
        primaryKey: table.primaryKey,
        ...foreignKeysOf(held.get(table) ?? []),
      },
    })),
  };
}

/** The standard takes no empty list. */
const foreignKeysOf = (keys: readonly ForeignKey[]) =>
  keys.length === 0
    ? {}
    : {
        foreignKeys: keys.map(({ field, table, reference }) => ({
          fields: field,
          reference: { resource: table, fields: reference },
        })),
      };

function fieldOf({ name, type, unit, meaning, required, words }: ColumnFacts) {
  const constraints = {
    ...(required === undefined ? {} : { required }),
    ...(words === undefined ? {} : { enum: words }),
  };
  return {
    name,
    type,
    // Milliseconds and offset are more than the default form of the standard has room for.
    ...(type === 'datetime' ? { format: 'any' } : {}),
    ...(unit === '' ? {} : { unit }),
    description: meaning,
    ...(Object.keys(constraints).length === 0 ? {} : { constraints }),
  };
}

/**
 * A file of another period does not name the run of this one, and a journal with a damaged entry can name an analyzer that it
 * does not have. A key that does not hold would make the whole file unreadable to a strict reader: it is left out, and only then.
 */
export function keysThatHold(
  tables: readonly PackageTable[],
): ReadonlyMap<PackageTable, readonly ForeignKey[]> {
  const byName = new Map(tables.map((table) => [table.name, table]));
  const known = new Map<string, ReadonlySet<string>>();
  const namedBy = ({ table, reference }: ForeignKey): ReadonlySet<string> => {
    const key = `${table} ${reference}`;
    const values = known.get(key) ?? new Set(byName.get(table)?.cellsOf(reference));
    known.set(key, values);
    return values;
  };
  return new Map(
    tables.map((table) => [
      table,
      table.foreignKeys.filter((key) => {
        const values = namedBy(key);
        return table.cellsOf(key.field).every((cell) => cell === '' || values.has(cell));
      }),
    ]),
  );
}
