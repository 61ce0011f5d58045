/** What the address of a control asks for: `biological/:analyzerId/:runId?`, `simulator/:analyzerId/:runId?`, `made/:controlId`. */
import type { Control, FindingCheck, Investigation } from '../../journal/entries.ts';
import type { Analyzer, Logbook, LoggedControl } from '../../journal/logbook.ts';
import { decodedPart } from '../deskRoutes.ts';

export interface AskedControl {
  kind: Control['kind'];
  analyzer: Analyzer;
  investigates: Investigation | null;
  /** The address names a run that is not in this logbook: the control is written down by itself. */
  lacksRun: boolean;
}

type Asked = { page: 'new'; asked: AskedControl } | { page: 'made'; control: LoggedControl };

/** A simulator's gas tells whether the gas analyzers are what is wrong. */
const checkOf: Record<Control['kind'], FindingCheck> = {
  biological: 'biological-control',
  simulator: 'other-gas',
};

/** `rest`: what follows `/control/`. Null where it names nothing of this logbook. */
export function readControlAddress(rest: string, { analyzers, controls, runs }: Logbook): Asked | null {
  const [kind = '', about = '', runId = ''] = rest.split('/').map(decodedPart);
  if (kind === 'made') {
    const control = controls.find(({ id }) => id === about);
    return control === undefined ? null : { page: 'made', control };
  }
  if (kind !== 'biological' && kind !== 'simulator') return null;
  const analyzer = analyzers.get(about);
  if (analyzer === undefined) return null;
  const isKnown = runs.some(({ id }) => id === runId);
  return {
    page: 'new',
    asked: {
      kind,
      analyzer,
      investigates: isKnown ? { runId, check: checkOf[kind] } : null,
      lacksRun: runId !== '' && !isKnown,
    },
  };
}
