import { useEffect, useState } from 'react';

/**
 * This moment in ms, renewed every half minute: a form that stands open must not judge by the time it was opened.
 * It is also renewed with every new `since`, such as the logbook after a save: what is typed next comes after that.
 */
export function useNow(since?: unknown): number {
  const [moment, setMoment] = useState(() => ({ now: Date.now(), since }));
  if (moment.since !== since) setMoment({ now: Date.now(), since });
  useEffect(() => {
    const timer = setInterval(() => setMoment({ now: Date.now(), since }), 30_000);
    return () => clearInterval(timer);
  }, [since]);
  return moment.now;
}
