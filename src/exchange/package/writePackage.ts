/** Writes an assessor's package: one ZIP of CSV files, their description and a text for people. */
import { Zip, ZipDeflate } from 'fflate';
import Papa from 'papaparse';
import { chainSummaries } from '../../journal/chain.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import { sha256OfBytes } from '../backupFormat.ts';
import { joined } from '../joined.ts';
import { descriptorOf, dialect, keysThatHold, type PackageFacts, type WrittenFile } from './descriptor.ts';
import { readmeOf } from './readme.ts';
import type { PackageScope, PackageSource } from './source.ts';
import type { PackageTable } from './table.ts';
import { packageTables } from './tables.ts';

export interface WrittenPackage {
  bytes: Uint8Array<ArrayBuffer>;
  files: readonly { path: string; rows: number }[];
}

/** How far the writing is, in files. */
export type OnWritten = (written: number, total: number) => void;

/**
 * The same source, scope and moment give the same bytes. `madeAt`: ISO 8601 instant in UTC.
 * Each table is made, hashed and packed before the next, so that their texts never lie in memory together.
 */
export async function writePackage(
  source: PackageSource,
  scope: PackageScope,
  madeAt: string,
  onWritten: OnWritten = () => {},
): Promise<WrittenPackage> {
  const tables = packageTables(source, scope);
  const archive = openArchive();
  const files: WrittenFile[] = [];
  for (const table of tables) {
    const content = csvOf(table);
    const path = `${table.name}.csv`;
    files.push({ table, path, bytes: content.length, hash: await sha256OfBytes(content) });
    archive.add(path, content);
    onWritten(files.length, tables.length);
  }
  const facts = factsOf(source, scope, madeAt);
  const encoder = new TextEncoder();
  archive.add('datapackage.json', encoder.encode(`${JSON.stringify(descriptorOf(files, facts), null, 2)}\n`));
  archive.add('README.txt', encoder.encode(readmeOf(files, facts, omissionsOf(source, tables))));
  return {
    bytes: archive.end(),
    files: files.map(({ path, table }) => ({ path, rows: table.rowCount })),
  };
}

function factsOf({ logbook }: PackageSource, scope: PackageScope, madeAt: string): PackageFacts {
  return {
    scope,
    madeAt,
    laboratory: laboratoryOf(logbook).name,
    analyzers: scope.analyzerIds.map((id) => logbook.analyzers.get(id)?.description.label ?? id),
  };
}

function omissionsOf({ rawRows, entries }: PackageSource, tables: readonly PackageTable[]) {
  const held = keysThatHold(tables);
  return {
    entries: entries.length,
    inTrail: tables.find(({ name }) => name === 'audit-trail')?.rowCount ?? 0,
    unreadable: rawRows.length - entries.length,
    heads: chainSummaries(rawRows),
    brokenKeys: tables.flatMap((table) =>
      table.foreignKeys
        .filter((key) => held.get(table)?.includes(key) !== true)
        .map(({ field }) => `${table.name}.${field}`),
    ),
  };
}

/** So many rows become text at a time: the text of a large table would be longer than a text can be. */
const rowsAtATime = 2000;

function csvOf(table: PackageTable): Uint8Array<ArrayBuffer> {
  const { lineTerminator, delimiter, quoteChar } = dialect;
  const config = { newline: lineTerminator, delimiter, quoteChar };
  const encoder = new TextEncoder();
  const linesOf = (rows: readonly string[][]) =>
    encoder.encode(Papa.unparse([...rows], config) + lineTerminator);
  const parts = [linesOf([table.columns.map(({ name }) => name)])];
  for (let from = 0; from < table.rowCount; from += rowsAtATime) {
    parts.push(linesOf(table.cells(from, from + rowsAtATime)));
  }
  return joined(parts);
}

/** Stands beside every file: the moment of making it would be in the bytes twice, and in the local time of whoever makes it. */
const fileTime = () => new Date(1980, 0, 1);

function openArchive() {
  const parts: Uint8Array[] = [];
  let problem: Error | null = null;
  const zip = new Zip((error, part) => {
    if (error) problem = error;
    else parts.push(part);
  });
  return {
    add(path: string, content: Uint8Array): void {
      const file = new ZipDeflate(path, { level: 6 });
      file.mtime = fileTime();
      zip.add(file);
      file.push(content, true);
    },
    end(): Uint8Array<ArrayBuffer> {
      zip.end();
      if (problem !== null) throw problem;
      return joined(parts);
    },
  };
}
