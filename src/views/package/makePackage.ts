/** Makes a package of rows, on whichever thread. */
import type { PackageScope } from '../../exchange/package/source.ts';
import { type OnWritten, type WrittenPackage, writePackage } from '../../exchange/package/writePackage.ts';
import { packageSourceOf } from './packageSource.ts';

export interface PackageQuestion {
  scope: PackageScope;
  /** ISO 8601 instant in UTC. */
  madeAt: string;
}

export async function makePackage(
  rows: readonly unknown[],
  { scope, madeAt }: PackageQuestion,
  onWritten: OnWritten,
): Promise<WrittenPackage> {
  return writePackage(await packageSourceOf(rows), scope, madeAt, onWritten);
}
