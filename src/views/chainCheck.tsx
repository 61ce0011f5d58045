/** The check of the whole journal, begun on start-up and again when it is asked for: one at a time, seen on every screen. */

import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { ChainReport } from '../journal/chain.ts';
import { messageOf } from '../store/messageOf.ts';
import type { LogbookHandle } from '../store/openLogbook.ts';

export type ChainCheck =
  | { state: 'waiting' }
  | { state: 'checking'; checked: number; total: number }
  | { state: 'done'; report: ChainReport; checkedAt: number }
  | { state: 'failed'; problem: string };

const ChainCheckContext = createContext<{ check: ChainCheck; start: () => void } | null>(null);

export function ChainCheckProvider({ handle, children }: { handle: LogbookHandle; children: ReactNode }) {
  const [check, setCheck] = useState<ChainCheck>({ state: 'waiting' });
  const isChecking = useRef(false);
  const start = useCallback(() => {
    if (isChecking.current) return;
    isChecking.current = true;
    setCheck({ state: 'checking', checked: 0, total: 0 });
    handle
      .checkChains((checked, total) => setCheck({ state: 'checking', checked, total }))
      .then((report) => setCheck({ state: 'done', report, checkedAt: Date.now() }))
      .catch((error: unknown) => setCheck({ state: 'failed', problem: messageOf(error) }))
      .finally(() => {
        isChecking.current = false;
      });
  }, [handle]);
  const value = useMemo(() => ({ check, start }), [check, start]);
  return <ChainCheckContext value={value}>{children}</ChainCheckContext>;
}

export function useChainCheck() {
  const shared = useContext(ChainCheckContext);
  if (shared === null) throw new Error('useChainCheck: no logbook is open here');
  return shared;
}

/** Time enough for the bench to be drawn and its first keys to be answered. */
const startUpPatienceMs = 1500;

/** Begins the check once the page stands. */
export function useCheckOnStartUp(): void {
  const { start } = useChainCheck();
  useEffect(() => {
    const timer = setTimeout(start, startUpPatienceMs);
    return () => clearTimeout(timer);
  }, [start]);
}
