import { useEffect, useState } from 'react';
import { demonstrationEntries } from '../../demo/laboratory.ts';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Loading } from '../parts/loading.tsx';
import { Notice } from '../parts/notice.tsx';

/** Every visitor sees the same invented laboratory. */
const seed = 20_170_103;

/** Fills the demonstration's own, empty database with the invented laboratory, up to today. */
export default function DemonstrationSetUp() {
  const { handle } = useLogbook();
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let current = true;
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    demonstrationEntries({ seed, endAt: Date.now(), zone })
      .then((entries) => (current ? handle.adoptEntries(entries) : undefined))
      .catch((error: unknown) => {
        if (current) setProblem(messageOf(error));
      });
    return () => {
      current = false;
    };
  }, [handle]);
  if (problem === null) return <Loading what="the demonstration" />;
  return (
    <Notice title="The demonstration could not be set up." tone="fail" urgent>
      <p>{problem}</p>
    </Notice>
  );
}
