import { useEffect, useRef, useState } from 'react';
import type { PackageScope } from '../../exchange/package/source.ts';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { packageFileName, saveFile } from '../parts/saveFile.ts';
import { type PackageMaking, startPackage } from './packageThread.ts';

export type Making =
  | { state: 'idle' }
  /** `total` is 0 until the first file is written. */
  | { state: 'making'; written: number; total: number }
  | { state: 'made'; fileName: string; bytes: number; files: number }
  | { state: 'failed'; problem: string };

/** Makes a package of what is stored now and hands it to the browser’s downloads. One at a time; leaving the page ends it. */
export function usePackage() {
  const { snapshot } = useLogbook();
  const [making, setMaking] = useState<Making>({ state: 'idle' });
  const current = useRef<PackageMaking | null>(null);
  useEffect(() => () => current.current?.end(), []);

  const make = async (scope: PackageScope) => {
    if (current.current !== null) return;
    setMaking({ state: 'making', written: 0, total: 0 });
    const question = { scope, madeAt: new Date(Date.now()).toISOString() };
    const mine = startPackage(snapshot.rawRows, question, (written, total) =>
      setMaking((now) => (now.state === 'making' ? { ...now, written, total } : now)),
    );
    current.current = mine;
    try {
      const { bytes, files } = await mine.made;
      const fileName = packageFileName(scope);
      saveFile(bytes, fileName, 'application/zip');
      setMaking({ state: 'made', fileName, bytes: bytes.length, files: files.length + 2 });
    } catch (error) {
      setMaking({ state: 'failed', problem: messageOf(error) });
    } finally {
      current.current = null;
    }
  };

  return {
    making,
    make,
    stop() {
      current.current?.end();
      current.current = null;
      setMaking({ state: 'idle' });
    },
    /** What was said of another choice no longer holds. */
    forget: () => setMaking((now) => (now.state === 'making' ? now : { state: 'idle' })),
  };
}
