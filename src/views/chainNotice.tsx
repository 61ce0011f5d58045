import { Link } from 'wouter';
import { useChainCheck } from './chainCheck.tsx';
import { counted } from './parts/figures.ts';
import { Notice } from './parts/notice.tsx';

/** On every screen, when the check of the whole journal found that something was changed outside this program. */
export function ChainNotice() {
  const { check } = useChainCheck();
  if (check.state !== 'done' || check.report.breaks.length === 0) return null;
  return (
    <Notice title="The journal was changed outside this program." tone="fail" urgent>
      <p>
        The check found {counted(check.report.breaks.length, 'break')} in the chain of its entries. Runs can
        still be recorded. <Link href="/records">See under Records which entries</Link>
      </p>
    </Notice>
  );
}
