import { useEffect, useState } from 'react';
import type { Entry } from '../../journal/entries.ts';
import { type SignatureCheck, verifySignatures } from '../../journal/signature.ts';
import { useLogbook } from '../logbookContext.tsx';

/** What every signature in the journal is worth, as it stands now; null while it is being looked at. */
export function useSignatureChecks(): readonly SignatureCheck[] | null {
  const { snapshot, logbook } = useLogbook();
  const { entries } = snapshot;
  const [checked, setChecked] = useState<{
    entries: readonly Entry[];
    checks: readonly SignatureCheck[];
  } | null>(null);
  useEffect(() => {
    let isStale = false;
    void verifySignatures(entries, logbook.keys).then((checks) => {
      if (!isStale) setChecked({ entries, checks });
    });
    return () => {
      isStale = true;
    };
  }, [entries, logbook.keys]);
  return checked?.entries === entries ? checked.checks : null;
}
