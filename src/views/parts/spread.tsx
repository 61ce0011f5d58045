import type { ReactNode } from 'react';

/** An open logbook: the left page is what is being done, the right page what it means. One below the other when narrow. */
export function Spread({
  left,
  right,
  wide = 'even',
}: {
  left: ReactNode;
  right: ReactNode;
  wide?: 'even' | 'right';
}) {
  return (
    <main className="spread" data-wide={wide} id="page" tabIndex={-1}>
      <div className="spread__page">{left}</div>
      <div className="spread__page">{right}</div>
    </main>
  );
}
