import { useCallback, useEffect, useRef, useState } from 'react';
import type { PackageScope } from '../../exchange/package/source.ts';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { packageFileName, saveFile } from '../parts/saveFile.ts';
import type { PackageContents } from './packageDesk.ts';
import { type PackageThread, startPackageThread } from './packageThread.ts';

export type Making =
  | { state: 'idle' }
  /** `total` is 0 until the first file is written. */
  | { state: 'making'; written: number; total: number }
  | { state: 'made'; fileName: string; bytes: number; files: number }
  | { state: 'failed'; problem: string };

export type Counting =
  | { state: 'counting' }
  | { state: 'counted'; contents: PackageContents }
  | { state: 'failed'; problem: string };

/** Counts what a package of the scope would hold and makes it, of what is stored now. Null: the scope cannot be read. */
export function usePackage(scope: PackageScope | null) {
  const { snapshot } = useLogbook();
  const { rawRows } = snapshot;
  const [making, setMaking] = useState<Making>({ state: 'idle' });
  const [counting, setCounting] = useState<Counting>({ state: 'counting' });
  const thread = useRef<{ of: readonly unknown[]; thread: PackageThread } | null>(null);

  const end = useCallback(() => {
    thread.current?.thread.end();
    thread.current = null;
  }, []);
  useEffect(() => end, [end]);

  /** Of the rows as they are: another entry, and another thread reads them all. */
  const threadOf = useCallback(
    (rows: readonly unknown[]) => {
      if (thread.current?.of !== rows) {
        end();
        thread.current = { of: rows, thread: startPackageThread(rows) };
      }
      return thread.current.thread;
    },
    [end],
  );

  const isMaking = making.state === 'making';
  useEffect(() => {
    // The thread that makes a package of the former rows goes on with them.
    if (scope === null || isMaking) return;
    let isCurrent = true;
    const tell = (counted: Counting) => {
      if (isCurrent) setCounting(counted);
    };
    threadOf(rawRows)
      .count(scope)
      .then(
        (contents) => tell({ state: 'counted', contents }),
        (error: unknown) => tell({ state: 'failed', problem: messageOf(error) }),
      );
    return () => {
      isCurrent = false;
    };
  }, [scope, rawRows, isMaking, threadOf]);

  return {
    making,
    counting,
    async make() {
      if (scope === null || isMaking) return;
      setMaking({ state: 'making', written: 0, total: 0 });
      const mine = threadOf(rawRows);
      const question = { scope, madeAt: new Date(Date.now()).toISOString() };
      try {
        const { bytes, files } = await mine.make(question, (written, total) =>
          setMaking((now) => (now.state === 'making' ? { ...now, written, total } : now)),
        );
        const fileName = packageFileName(scope);
        saveFile(bytes, fileName, 'application/zip');
        setMaking({ state: 'made', fileName, bytes: bytes.length, files: files.length + 2 });
      } catch (error) {
        setMaking({ state: 'failed', problem: messageOf(error) });
      }
    },
    stop() {
      end();
      setMaking({ state: 'idle' });
    },
    /** What was said of another choice no longer holds. */
    forget: () => setMaking((now) => (now.state === 'making' ? now : { state: 'idle' })),
  };
}
