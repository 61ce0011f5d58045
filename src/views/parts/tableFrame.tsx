import type { ReactNode } from 'react';

/** A table that may be wider than its page and then scrolls by itself, by the arrow keys too. */
export function TableFrame({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard (WCAG 2.1.1).
    <section aria-label={label} className="table-frame" tabIndex={0}>
      {children}
    </section>
  );
}
