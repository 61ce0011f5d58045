import { lazy, Suspense } from 'react';

/** With the table of causes: nothing that the form needs. */
const NextChecks = lazy(() => import('./nextChecks.tsx'));

/** What to check next after a failing run was recorded. */
export function LookInto({
  runId,
  hasRepeat = false,
}: {
  runId: string;
  /** The page offers the repeat itself. */
  hasRepeat?: boolean;
}) {
  return (
    <Suspense fallback={<p className="quiet">Looking for the next checks…</p>}>
      <NextChecks hasRepeat={hasRepeat} runId={runId} />
    </Suspense>
  );
}
