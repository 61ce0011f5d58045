import { useState } from 'react';
import { Link } from 'wouter';
import type { LoggedControl } from '../../journal/logbook.ts';
import { newControlHref } from '../deskRoutes.ts';
import { ReasonForm } from '../parts/reasonForm.tsx';
import { controlTexts } from './controlTexts.ts';
import { FailureItOpened } from './failureOfControl.tsx';

/** What can be done with a control that stands: each by an entry of its own, which erases nothing. */
export function ControlActions({
  logged,
  onAmend,
  onSaved,
  onLeft,
}: {
  logged: LoggedControl;
  onAmend: () => void;
  onSaved: (done: string) => void;
  /** A form that was opened here is left. */
  onLeft: () => void;
}) {
  const [open, setOpen] = useState<'void' | 'set-aside' | null>(null);
  const leave = () => {
    setOpen(null);
    onLeft();
  };
  const saved = (done: string) => {
    setOpen(null);
    onSaved(done);
  };
  if (open === 'void') return <VoidControl logged={logged} onCancel={leave} onSaved={saved} />;
  if (open === 'set-aside') return <SetAside logged={logged} onCancel={leave} onSaved={saved} />;
  const { kind, analyzerId } = logged.control;
  return (
    <div className="line">
      <button onClick={onAmend} type="button">
        Amend…
      </button>
      <button onClick={() => setOpen('void')} type="button">
        Void…
      </button>
      <button onClick={() => setOpen('set-aside')} type="button">
        {logged.setAside === null ? 'Set aside…' : 'Take back in…'}
      </button>
      <Link href={newControlHref(kind, analyzerId)}>{controlTexts[kind].another}</Link>
    </div>
  );
}

interface ActionProps {
  logged: LoggedControl;
  onSaved: (done: string) => void;
  onCancel: () => void;
}

function VoidControl({ logged: { id, control }, onSaved, onCancel }: ActionProps) {
  const made = controlTexts[control.kind].made.toLowerCase();
  return (
    <ReasonForm
      action={`Void ${made}`}
      explanation="It stays visible, struck through, counts as not made, and leaves every mean."
      makeEntries={(by, reason) => [
        { id: crypto.randomUUID(), by, kind: 'control-voided', body: { controlId: id, reason } },
      ]}
      onCancel={onCancel}
      onSaved={() => onSaved('voided')}
      title={`Void the ${made}`}
      warning={<FailureItOpened controlId={id} />}
    />
  );
}

function SetAside({ logged: { id, control, setAside }, onSaved, onCancel }: ActionProps) {
  const made = controlTexts[control.kind].made.toLowerCase();
  const isSetAside = setAside === null;
  return (
    <ReasonForm
      action={isSetAside ? 'Set it aside' : 'Take it back in'}
      explanation={
        isSetAside
          ? 'It was made and stands as it is written. Set aside, it counts in no mean and no pattern, as it says nothing of the analyzer.'
          : 'It counts again in every mean and pattern, as on its day.'
      }
      makeEntries={(by, reason) => [
        {
          id: crypto.randomUUID(),
          by,
          kind: 'control-set-aside',
          body: { controlId: id, isSetAside, reason },
        },
      ]}
      onCancel={onCancel}
      onSaved={() => onSaved(isSetAside ? 'set aside' : 'taken back in')}
      only="supervisor"
      title={isSetAside ? `Set the ${made} aside` : `Take the ${made} back in`}
      warning={isSetAside ? <FailureItOpened controlId={id} /> : undefined}
    />
  );
}
