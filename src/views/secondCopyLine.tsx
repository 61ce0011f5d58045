import { useLogbook } from './logbookContext.tsx';
import { useSecondCopyParts } from './secondCopy.tsx';

/** What every screen says of the second copy. None for invented data. */
export function SecondCopyLine() {
  const { demonstration } = useLogbook();
  const parts = useSecondCopyParts();
  if (demonstration || parts === 'awaited') return null;
  if (parts === 'missing') {
    return (
      <span className="top-line__copy" data-tone="fail">
        No second copy is written: reload the page
      </span>
    );
  }
  return <parts.SecondCopyAge />;
}
