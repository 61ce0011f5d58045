import { useLogbook } from '../logbookContext.tsx';
import { Notice } from './notice.tsx';

/** At the head of every form, before anything is typed in vain. */
export function ReadOnlyNote() {
  const { snapshot } = useLogbook();
  if (snapshot.newer === null) return null;
  return (
    <Notice title="This form cannot be saved on this version." tone="warn">
      <p>The logbook holds entries of a newer version. What is written here could contradict them.</p>
    </Notice>
  );
}
