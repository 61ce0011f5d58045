/** Counts and makes packages of one journal, on whichever thread. What they are made from is worked out once, for the first question. */
import type { PackageScope } from '../../exchange/package/source.ts';
import { tablesInScope } from '../../exchange/package/tables.ts';
import { type OnWritten, type WrittenPackage, writePackage } from '../../exchange/package/writePackage.ts';
import { packageSourceOf } from './packageSource.ts';

export interface PackageQuestion {
  scope: PackageScope;
  /** ISO 8601 instant in UTC. */
  madeAt: string;
}

/** What will be in a package. */
export interface PackageContents {
  tables: readonly { name: string; title: string; description: string; rowCount: number }[];
  /** Entries of the journal, and those of them in the audit trail. */
  entries: number;
  inTrail: number;
}

export interface PackageDesk {
  count: (scope: PackageScope) => Promise<PackageContents>;
  make: (question: PackageQuestion, onWritten: OnWritten) => Promise<WrittenPackage>;
}

export function openPackageDesk(rows: readonly unknown[]): PackageDesk {
  let source: ReturnType<typeof packageSourceOf> | undefined;
  const getSource = () => {
    source ??= packageSourceOf(rows);
    return source;
  };
  return {
    async count(scope) {
      const { tables, trail } = tablesInScope(await getSource(), scope);
      return {
        tables: tables.map(({ name, title, description, rowCount }) => ({
          name,
          title,
          description,
          rowCount,
        })),
        entries: (await getSource()).entries.length,
        inTrail: trail.length,
      };
    },
    async make({ scope, madeAt }, onWritten) {
      return writePackage(await getSource(), scope, madeAt, onWritten);
    },
  };
}
