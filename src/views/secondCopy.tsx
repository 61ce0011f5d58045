/**
 * The standing second copy and the last backup file, seen on every screen. They are fetched once the page stands, so that
 * nobody waits for them to type a run. What is saved before they arrive is copied all the same: the copy looks at what is
 * stored, not at what was said.
 */
import {
  type ComponentType,
  createContext,
  type ReactNode,
  useContext,
  useEffect,
  useState,
  useSyncExternalStore,
} from 'react';
import type { LogbookHandle } from '../store/openLogbook.ts';
import type { SecondCopy, SecondCopySnapshot } from '../store/secondCopy.ts';

/** `missing`: they could not be fetched, and nothing is copied. */
type SecondCopyParts = 'awaited' | 'missing' | { copy: SecondCopy; SecondCopyAge: ComponentType };

const SecondCopyContext = createContext<SecondCopyParts>('awaited');

export function SecondCopyProvider({
  handle,
  isReading,
  children,
}: {
  handle: LogbookHandle;
  /** What is stored is not known yet, and nothing is copied. */
  isReading: boolean;
  children: ReactNode;
}) {
  const [parts, setParts] = useState<SecondCopyParts>('awaited');
  useEffect(() => {
    let isLeft = false;
    let stop = () => {};
    if (isReading) return;
    import('./secondCopyParts.ts')
      .then(({ secondCopyOf, SecondCopyAge }) => {
        if (isLeft) return;
        const copy = secondCopyOf(handle);
        stop = copy.start();
        setParts({ copy, SecondCopyAge });
      })
      .catch(() => setParts('missing'));
    return () => {
      isLeft = true;
      stop();
    };
  }, [handle, isReading]);
  return <SecondCopyContext value={parts}>{children}</SecondCopyContext>;
}

export const useSecondCopyParts = () => useContext(SecondCopyContext);

const nothingKnown: SecondCopySnapshot = {
  isKnown: false,
  chosen: null,
  phase: { name: 'idle' },
  written: null,
  backup: null,
};
const nothing: Pick<SecondCopy, 'subscribe' | 'getSnapshot'> = {
  subscribe: () => () => {},
  getSnapshot: () => nothingKnown,
};

/** Null, with nothing known of it, until the copy has been fetched. */
export function useSecondCopy(): { copy: SecondCopy | null; state: SecondCopySnapshot } {
  const parts = useSecondCopyParts();
  const copy = typeof parts === 'string' ? null : parts.copy;
  const { subscribe, getSnapshot } = copy ?? nothing;
  return { copy, state: useSyncExternalStore(subscribe, getSnapshot) };
}
