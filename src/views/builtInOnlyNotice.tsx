import { useMemo } from 'react';
import { builtInOnlyOf, builtInOnlySentence } from './builtInOnly.ts';
import { useLogbook } from './logbookContext.tsx';
import { localDay, localZone } from './parts/localTime.ts';
import { Notice } from './parts/notice.tsx';
import { useNow } from './parts/useNow.ts';

/** Said of the analyzer that is looked at; nothing where the patient test is run as well. */
export default function BuiltInOnlyNotice({ analyzerId }: { analyzerId: string }) {
  const { logbook } = useLogbook();
  const now = useNow(logbook);
  const today = localDay(now);
  const found = useMemo(() => {
    const analyzer = logbook.analyzers.get(analyzerId);
    // The day's end stands for all of it: it is asked once a day, not every half minute.
    return analyzer ? builtInOnlyOf(logbook, analyzer, Date.parse(`${today}T23:59`), localZone()) : null;
  }, [logbook, analyzerId, today]);
  return found ? (
    <Notice tone="warn">
      <p>{builtInOnlySentence(found)}</p>
    </Notice>
  ) : null;
}
