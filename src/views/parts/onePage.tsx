import type { ReactNode } from 'react';

/** One sheet across both pages of the logbook, for a table that needs their whole width. */
export function OnePage({ children }: { children: ReactNode }) {
  return (
    <main className="spread" data-wide="one" id="page" tabIndex={-1}>
      <div className="spread__page">{children}</div>
    </main>
  );
}
