import { useLogbook } from '../logbookContext.tsx';
import { LastControls } from './lastControls.tsx';

type Made = { analyzerId: string } & ({ kind: 'biological'; subjectId: string } | { kind: 'simulator' });

/** Those of the same person on the same analyzer, or the analyzer's sessions. */
export function EarlierControls({ of: made }: { of: Made }) {
  const { logbook } = useLogbook();
  const analyzer = logbook.analyzers.get(made.analyzerId);
  const subject = made.kind === 'biological' ? logbook.subjects.get(made.subjectId) : undefined;
  if (analyzer === undefined || (made.kind === 'biological' && subject === undefined)) return null;
  const { label } = analyzer.description;
  return (
    <LastControls
      controls={logbook.controls.filter(
        ({ control }) =>
          control.kind === made.kind &&
          control.analyzerId === analyzer.id &&
          (control.kind === 'simulator' || control.subjectId === subject?.id),
      )}
      kind={made.kind}
      title={
        subject === undefined
          ? `Last sessions on ${label}`
          : `Last tests of ${subject.description.code} on ${label}`
      }
    />
  );
}
