import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { beginning, type ListedKind } from './buildControlList.ts';

/** Where one more is written down, and what else is near. An analyzer that is retired gets no more. */
export function WaysOn({
  analyzerId,
  kind,
  children,
}: {
  analyzerId: string;
  kind: ListedKind;
  children?: ReactNode;
}) {
  const { logbook } = useLogbook();
  const { href, label } = beginning[kind](analyzerId);
  return (
    <div className="line">
      {logbook.analyzers.get(analyzerId)?.retired === null ? <Link href={href}>{label}</Link> : null}
      {children}
    </div>
  );
}
