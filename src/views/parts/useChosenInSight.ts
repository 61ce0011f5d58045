import { type RefObject, useEffect, useRef } from 'react';

/**
 * For the right page of a spread. On a narrow screen it stands below the list that it is chosen from, often out of
 * sight: once something is `chosen`, by its address, the page comes up. Nothing is chosen where that is empty.
 */
export function useChosenInSight(chosen: string): RefObject<HTMLDivElement | null> {
  const page = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const { current } = page;
    if (chosen === '' || current === null) return;
    // Beside the list, and at its foot on a short list, the beginning is in sight already.
    if (current.getBoundingClientRect().top > window.innerHeight / 2) current.scrollIntoView();
  }, [chosen]);
  return page;
}
