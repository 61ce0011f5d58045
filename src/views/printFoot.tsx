import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';
import { type ChainSummary, chainSummaries } from '../journal/chain.ts';
import { laboratoryOf } from '../journal/standing.ts';
import { useLogbook } from './logbookContext.tsx';
import { dayAndTime } from './parts/figures.ts';

/** Stands at the end of every print and on no screen: the head of the journal, by which the paper proves the file. */
export function PrintFoot() {
  const { snapshot, logbook } = useLogbook();
  const { name } = laboratoryOf(logbook);
  const [print, setPrint] = useState<{ at: number; heads: readonly ChainSummary[] } | null>(null);
  useEffect(() => {
    // Made when a print begins, and at once: the browser prints the page as it stands after this event.
    const prepare = () =>
      flushSync(() => setPrint({ at: Date.now(), heads: chainSummaries(snapshot.rawRows) }));
    window.addEventListener('beforeprint', prepare);
    return () => window.removeEventListener('beforeprint', prepare);
  }, [snapshot]);
  if (print === null) return null;
  return (
    <footer className="print-foot">
      <p>
        Printed {dayAndTime(print.at)} from the Diffusion QC Logbook{name === '' ? '' : ` of ${name}`}.
      </p>
      {print.heads.map(({ workstation, headSeq, headHash }) => (
        <p key={workstation}>
          Workstation {workstation}: entry {headSeq} is the last, hash {headHash}
        </p>
      ))}
    </footer>
  );
}
