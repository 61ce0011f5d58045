import { type RefObject, useEffect, useRef, useState } from 'react';

/** The width of an element in pixels, and again whenever it changes. */
export function useWidth<T extends Element>(before: number): [RefObject<T | null>, number] {
  const element = useRef<T>(null);
  const [width, setWidth] = useState(before);
  useEffect(() => {
    const { current } = element;
    if (current === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry && entry.contentRect.width > 0) setWidth(entry.contentRect.width);
    });
    observer.observe(current);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
