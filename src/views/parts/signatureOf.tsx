import type { Entry } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from './notice.tsx';
import { signatureSentence } from './signatureSentence.ts';
import { useSignatureChecks } from './useSignatureChecks.ts';

/** Whether an entry was signed, and what that signature is worth today. */
export function SignatureOf({ entry }: { entry: Pick<Entry, 'hash'> }) {
  const { logbook } = useLogbook();
  const check = useSignatureChecks()?.find((one) => one.entry.hash === entry.hash);
  if (check === undefined) return <span className="quiet">being verified…</span>;
  const sentence = signatureSentence(check, logbook);
  if (check.verdict === 'valid' || check.verdict === 'unsigned') return sentence;
  return <Notice title={sentence} tone="fail" urgent />;
}
