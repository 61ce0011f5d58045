import type { ReactNode } from 'react';

/** A message that concerns the whole page: what is so, and what to do. `urgent` interrupts a screen reader. */
export function Notice({
  tone,
  title,
  children,
  urgent = false,
}: {
  tone: 'quiet' | 'pass' | 'warn' | 'fail';
  title?: ReactNode;
  children?: ReactNode;
  urgent?: boolean;
}) {
  return (
    <div className="notice" data-tone={tone} role={urgent ? 'alert' : 'status'}>
      {title ? <p className="notice__title">{title}</p> : null}
      {children}
    </div>
  );
}
