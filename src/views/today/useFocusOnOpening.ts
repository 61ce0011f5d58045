import { type RefObject, useEffect, useRef } from 'react';

/**
 * What is read first when the page opens, where nothing else has the focus: the run that is due, so that Enter starts it,
 * or what the address asks for. After a check was noted that must not be a run, which a second Enter would start.
 */
export function useFocusOnOpening<T extends HTMLElement>(isMeant: boolean): RefObject<T | null> {
  const element = useRef<T>(null);
  const isMeantAtFirst = useRef(isMeant);
  useEffect(() => {
    const { activeElement, body } = document;
    const isFree = activeElement === null || activeElement === body || activeElement.id === 'page';
    if (isMeantAtFirst.current && isFree) element.current?.focus({ preventScroll: true });
  }, []);
  return element;
}
