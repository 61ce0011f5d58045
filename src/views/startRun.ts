/** Puts a run on the bench from wherever it is asked for: what is due, a failure that is looked into, an analyzer's page. */
import { useLocation } from 'wouter';
import type { RunContent } from '../journal/entries.ts';
import { useLogbook } from './logbookContext.tsx';
import { draftForAnalyzer } from './runForm/benchDraft.ts';
import { lastRunOf } from './runForm/readBenchDraft.ts';
import { useScreenState } from './screenState.ts';

export interface RunStart {
  analyzerId: string;
  /** Each as the analyzer's last run had it where it is left out. */
  route?: RunContent['route'];
  syringeId?: string;
  reason?: RunContent['reason'];
  investigates?: RunContent['investigates'];
}

export function useStartRun(): (start: RunStart) => void {
  const { logbook } = useLogbook();
  const { benchDraft, setBenchDraft, setRecordedRunId } = useScreenState();
  const [, navigate] = useLocation();
  return ({ analyzerId, route, syringeId, reason = 'weekly' }) => {
    const analyzer = logbook.analyzers.get(analyzerId);
    if (analyzer === undefined) return;
    const draft = draftForAnalyzer(benchDraft, analyzer, lastRunOf(logbook, analyzerId));
    setRecordedRunId(null);
    setBenchDraft({ ...draft, reason, ...(route && { route }), ...(syringeId && { syringeId }) });
    navigate('/bench');
  };
}
