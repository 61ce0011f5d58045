import { FailureItOpened } from './failureItOpened.tsx';
import { ReasonForm } from './reasonForm.tsx';

/** Asks why a run is voided and by whom. Nothing is erased: the run is struck through by an entry of its own. */
export function VoidRun({
  runId,
  when,
  onSaved,
  onClose,
}: {
  runId: string;
  when: string;
  onSaved: () => void;
  onClose: () => void;
}) {
  return (
    <ReasonForm
      action="Void run"
      explanation="The run stays visible, struck through. It leaves every mean, of VA and of DLCO."
      warning={<FailureItOpened runId={runId} />}
      makeEntries={(by, reason) => [
        { id: crypto.randomUUID(), by, kind: 'run-voided', body: { runId, reason } },
      ]}
      onCancel={onClose}
      onSaved={onSaved}
      title={`Void the run of ${when}`}
    />
  );
}
