import { useMemo } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { buildReadBack } from './buildReadBack.ts';
import type { Guide } from './useGuide.ts';

/** Under the readings: what each comes to as soon as it is typed. */
export function ReadBack({ guide }: { guide: Guide }) {
  const { logbook } = useLogbook();
  const { bench } = guide;
  const { draft, unlessTyped: now } = bench;
  const lines = useMemo(() => buildReadBack(draft, { logbook, now }), [draft, logbook, now]);
  if (lines.length === 0) return null;
  return (
    <div className="stack group">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
