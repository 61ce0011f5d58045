import { useMemo } from 'react';
import { Link } from 'wouter';
import { useLogbook } from './logbookContext.tsx';
import { compareHref } from './routes.ts';
import { syringeRoutes } from './syringeRoutes.ts';

/** The way to both routes side by side, where the analyzer has been run by both. */
export function CompareLink({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const hasBoth = useMemo(() => syringeRoutes(logbook, analyzerId).size === 2, [logbook, analyzerId]);
  return hasBoth ? (
    <p>
      <Link href={compareHref(analyzerId)}>Compare the routes</Link>
    </p>
  ) : null;
}
