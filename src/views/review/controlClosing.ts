/** From the typed form to the entry that closes failures of controls. Pure. */
import type { SignableDraft } from '../../journal/signature.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { asSentence } from '../parts/asSentence.ts';
import { type Errors, type FormReading, finish } from '../parts/formReading.ts';

export interface ControlClosingDraft {
  cause: string;
  correctiveAction: string;
  lookBack: string;
  /** Why it may be closed although no later test shows that it is over. */
  withoutProof: string;
}

interface ControlClosingContent {
  cause: string;
  correctiveAction: string;
  lookBack: string;
}

/** What a text of the journal holds at most. */
const longest = 2000;

/** `isProven`: a later test of each series that is closed has passed. */
export function readControlClosing(
  draft: ControlClosingDraft,
  isProven: boolean,
): FormReading<ControlClosingDraft, ControlClosingContent> {
  const errors: Errors<ControlClosingDraft> = {};
  const cause = draft.cause.trim();
  const done = draft.correctiveAction.trim();
  const lookBack = draft.lookBack.trim();
  const withoutProof = draft.withoutProof.trim();
  if (cause === '') errors.cause = 'Say what the cause was, or that none was found.';
  if (done === '') errors.correctiveAction = 'Say what was done, or that nothing had to be.';
  if (lookBack === '')
    errors.lookBack = 'Say what was decided about the patients tested meanwhile, or that nobody was tested.';
  const proofWords = `Closed without a passing test: ${asSentence(withoutProof)}`;
  const correctiveAction = isProven ? done : `${asSentence(done)} ${proofWords}`;
  if (!isProven && withoutProof === '')
    errors.withoutProof = 'Say why it may be closed although no later test passed.';
  else if (correctiveAction.length > longest)
    errors.correctiveAction = `This is ${correctiveAction.length - longest} letters too long together with why it may be closed.`;
  return finish(errors, { cause, correctiveAction, lookBack });
}

export function controlClosingEntry(
  closed: readonly ControlFailure[],
  content: ControlClosingContent,
  { by, closedAt }: { by: string; closedAt: string },
): SignableDraft {
  return {
    id: crypto.randomUUID(),
    by,
    kind: 'control-closed',
    body: {
      closureId: crypto.randomUUID(),
      analyzerId: closed[0]?.analyzerId ?? '',
      failures: closed.map(({ series, openedBy }) => ({ series, openedByControlId: openedBy.id })),
      closedAt,
      ...content,
      signature: null,
    },
  };
}

/** Not before what it closes and what proves it, which a clock or a slip may have dated ahead. */
export const controlsClosedFrom = (closed: readonly ControlFailure[], now: string): string =>
  [now, ...closed.flatMap(({ controls }) => controls.map(({ control }) => control.madeAt))].sort().at(-1) ??
  now;
