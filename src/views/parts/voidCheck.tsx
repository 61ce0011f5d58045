import { ReasonForm } from './reasonForm.tsx';

/** Asks why a noted check is voided and by whom. It stays in the logbook, struck through by an entry of its own. */
export function VoidCheck({
  checkId,
  what,
  onSaved,
  onClose,
}: {
  checkId: string;
  /** The check and its day, in a title. */
  what: string;
  onSaved: () => void;
  onClose: () => void;
}) {
  return (
    <ReasonForm
      action="Void check"
      explanation="It stays visible, struck through. What is due is then reckoned from the check before it."
      makeEntries={(by, reason) => [
        { id: crypto.randomUUID(), by, kind: 'check-voided', body: { checkId, reason } },
      ]}
      onCancel={onClose}
      onSaved={onSaved}
      title={`Void: ${what}`}
    />
  );
}
