import { useLocation } from 'wouter';
import type { Begin } from '../investigationChecks.ts';
import { useStartRun } from '../startRun.ts';

/** A laboratory of forty analyzers has as many to compare with: the rest is one press away. */
const atOnce = 3;

/** The buttons that begin a check, linked to the run it looks into: on the bench, or on the page that notes it. */
export function BeginChecks({ begins, isMain = false }: { begins: readonly Begin[]; isMain?: boolean }) {
  const rest = begins.slice(atOnce);
  return (
    <>
      <BeginLine begins={begins.slice(0, atOnce)} isMain={isMain} />
      {rest.length > 0 ? (
        <details>
          <summary>{rest.length} more</summary>
          <BeginLine begins={rest} isMain={false} />
        </details>
      ) : null}
    </>
  );
}

function BeginLine({ begins, isMain }: { begins: readonly Begin[]; isMain: boolean }) {
  const startRun = useStartRun();
  const [, navigate] = useLocation();
  return (
    <div className="line">
      {begins.map((begin) => (
        <button
          data-weight={isMain ? 'main' : undefined}
          key={begin.kind === 'run' ? begin.start.analyzerId : begin.href}
          onClick={() => (begin.kind === 'run' ? startRun(begin.start) : navigate(begin.href))}
          type="button"
        >
          {begin.label}
        </button>
      ))}
    </div>
  );
}
