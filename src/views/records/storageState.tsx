import { useEffect, useState } from 'react';
import { readStorageKeeping, type StorageKeeping } from '../../store/storageKeeping.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { fileSize } from '../parts/fileSize.ts';

/** Where the records lie, and what the browser says about keeping them. */
export function StorageState() {
  const { handle, snapshot, demonstration } = useLogbook();
  const [keeping, setKeeping] = useState<StorageKeeping | null>(null);
  // Asked again after each save: the first one brings the promise, and every one takes room.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the snapshot only tells that something was saved
  useEffect(() => {
    let current = true;
    void readStorageKeeping().then((read) => current && setKeeping(read));
    return () => {
      current = false;
    };
  }, [snapshot]);
  if (demonstration || keeping === null) return null;
  const { isPromised, usedBytes, allowedBytes } = keeping;
  const isMarkKept = handle.isMarkKept();
  return (
    <section className="stack group">
      <h2>Will this browser keep it?</h2>
      <p>
        {promiseWords(isPromised)} A private window forgets everything when it is closed, whatever is said
        here.
      </p>
      <FigureList
        rows={[
          {
            name: 'Room taken',
            value:
              usedBytes === null || allowedBytes === null
                ? 'The browser does not say'
                : `${fileSize(usedBytes)} of ${fileSize(allowedBytes)}`,
          },
          {
            name: 'Mark outside the database',
            value:
              isMarkKept === null
                ? 'Made with the first entry'
                : isMarkKept
                  ? 'Kept'
                  : 'Refused by the browser',
          },
        ]}
      />
      <p className="quiet">
        {isMarkKept === false
          ? 'This browser’s settings forbid its small storage. Should it lose the whole database, the logbook will look like a first day: keep exports elsewhere.'
          : 'The mark says how many entries there were and which was the last. Should the browser lose them, the logbook says so when it is opened and does not begin an empty one by itself.'}
      </p>
    </section>
  );
}

function promiseWords(isPromised: boolean | null): string {
  switch (isPromised) {
    case true:
      return 'The browser has promised to keep the records until somebody clears this site’s data.';
    case false:
      return 'The browser has not promised to keep the records: it may clear them when the disk runs short. A bookmark of this address makes some browsers give the promise.';
    case null:
      return 'This browser gives no promise to keep what a page stores.';
  }
}
