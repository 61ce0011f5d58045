/** Packages as somebody else's program reads them. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Package } from 'datapackage';
import type { PackageScope, PackageSource } from '../../../src/exchange/package/source.ts';
import { writePackage } from '../../../src/exchange/package/writePackage.ts';
import { packageSourceOf } from '../../../src/views/package/packageSource.ts';

export const madeAt = '2026-06-01T10:00:00.000Z';

export const wholeScope = (
  { logbook }: Pick<PackageSource, 'logbook'>,
  zone = 'Europe/Oslo',
): PackageScope => ({
  from: '2000-01-01',
  to: '2099-12-31',
  zone,
  analyzerIds: [...logbook.analyzers.keys()],
});

export async function packageOf(rows: readonly unknown[], change: Partial<PackageScope> = {}) {
  const source = await packageSourceOf(rows);
  const scope = { ...wholeScope(source), ...change };
  return { source, scope, written: await writePackage(source, scope, madeAt) };
}

/** Unpacked and read by the reference implementation of the standard, whose ZIP reader is not the one that wrote it. */
export async function opened(bytes: Uint8Array) {
  const folder = await mkdtemp(path.join(tmpdir(), 'dlco-package-'));
  const file = path.join(folder, 'package.zip');
  await writeFile(file, bytes);
  const read = await Package.load(file);
  await rm(folder, { recursive: true });
  const unpacked = path.dirname(read.resources[0]?.source ?? '');
  return {
    read,
    resource: (name: string) => {
      const found = read.getResource(name);
      if (found === null) throw new Error(`the package has no ${name}`);
      return found;
    },
    /** Cast to the types that the description names, its constraints and the keys between files checked. */
    rows: (name: string) => {
      const found = read.getResource(name);
      if (found === null) throw new Error(`the package has no ${name}`);
      return found.read({ keyed: true });
    },
    readme: () => readFile(path.join(unpacked, 'README.txt'), 'utf8'),
    dispose: () => rm(unpacked, { recursive: true }),
  };
}

export type Opened = Awaited<ReturnType<typeof opened>>;
