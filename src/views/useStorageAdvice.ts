import { useEffect, useState } from 'react';
import type { StorageProblem } from '../store/openLogbook.ts';
import type { StorageAdvice } from './storageAdvice.ts';

type AdviseOn = (problem: StorageProblem) => StorageAdvice;

/** Where the advice itself did not arrive: the browser's own words are better than none. */
const bareWords: AdviseOn = ({ message }) => ({ title: 'The storage reported a problem', what: message });

/** Fetched as soon as whoever may need it stands on the page; null until it is there. */
export function useStorageAdvice(): AdviseOn | null {
  const [advise, setAdvise] = useState<AdviseOn | null>(null);
  useEffect(() => {
    let isLeft = false;
    const keep = (fetched: AdviseOn) => {
      if (!isLeft) setAdvise(() => fetched);
    };
    import('./storageAdvice.ts').then(
      ({ storageAdvice }) => keep(storageAdvice),
      () => keep(bareWords),
    );
    return () => {
      isLeft = true;
    };
  }, []);
  return advise;
}
