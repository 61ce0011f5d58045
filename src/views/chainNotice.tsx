import { Link } from 'wouter';
import { useChainCheck } from './chainCheck.tsx';
import { counted } from './parts/figures.ts';
import { Notice } from './parts/notice.tsx';

/**
 * On every screen, when the check of the whole journal found a break. A chain that was continued in two places, as a
 * copied profile does it, has lost nothing: it is told in a quieter tone, since it stays so for ever.
 */
export function ChainNotice() {
  const { check } = useChainCheck();
  if (check.state !== 'done' || check.report.breaks.length === 0) return null;
  const { breaks } = check.report;
  const isForkOnly = breaks.every(({ kind }) => kind === 'twice');
  return (
    <Notice
      title={
        isForkOnly
          ? 'A chain of the journal was continued in two places. Both are kept.'
          : 'The journal is not as it was written.'
      }
      tone={isForkOnly ? 'warn' : 'fail'}
      urgent={!isForkOnly}
    >
      <p>
        The check found {counted(breaks.length, 'break')} in the chain of its entries. Runs can still be
        recorded. <Link href="/records">See under Records which entries</Link>
      </p>
    </Notice>
  );
}
