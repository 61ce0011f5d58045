import { useLogbook } from '../logbookContext.tsx';
import { RestoreForm } from '../parts/restoreForm.tsx';

/** Where a backup file is picked and restored while entries are missing. */
export function RestoreSlot() {
  const { handle } = useLogbook();
  return <RestoreForm handle={handle} />;
}
