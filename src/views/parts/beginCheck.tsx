import { useLocation } from 'wouter';
import type { Begin } from '../investigationChecks.ts';
import { useStartRun } from '../startRun.ts';

/** The button that begins a check, linked to the run it looks into: on the bench, or on the page that notes it. */
export function BeginCheck({ begin, isMain = false }: { begin: Begin; isMain?: boolean }) {
  const startRun = useStartRun();
  const [, navigate] = useLocation();
  return (
    <button
      data-weight={isMain ? 'main' : undefined}
      onClick={() => (begin.kind === 'run' ? startRun(begin.start) : navigate(begin.href))}
      type="button"
    >
      {begin.label}
    </button>
  );
}
