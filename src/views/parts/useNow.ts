import { useEffect, useState } from 'react';

/** This moment in ms, renewed every half minute: a form that stands open must not judge by the time it was opened. */
export function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 30_000);
    return () => clearInterval(timer);
  }, []);
  return now;
}
