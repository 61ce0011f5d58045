/** The way of a failure from open to closed, step by step in words. Pure. */
import type { Quantity, RunAssessment } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { type Closing, endedAt, type Proof, type RequiredStep } from '../closing.ts';
import type { ClosingWindow } from '../closingWindow.ts';
import type { Failure } from '../failures.ts';
import { counted, dayAndTime } from '../parts/figures.ts';

export interface StepLine {
  id: 'opened' | 'stopped' | 'looked-into' | RequiredStep | 'closed';
  title: string;
  /** `optional`: not done, and this laboratory does not ask for it. */
  state: 'done' | 'missing' | 'optional';
  sentence: string;
}

export function stepLines(
  failure: Failure,
  {
    closing,
    window,
    checksMade,
    logbook,
  }: {
    closing: Closing;
    window: ClosingWindow;
    /** How many runs and checks look into it. */
    checksMade: number;
    logbook: Pick<Logbook, 'technologists'>;
  },
): readonly StepLine[] {
  const { actions, lookBacks, proof } = closing;
  const ofRequired = (id: RequiredStep, isDone: boolean, title: string, sentence: string): StepLine => ({
    id,
    title,
    state: isDone ? 'done' : closing.required.includes(id) ? 'missing' : 'optional',
    sentence,
  });
  const lastAction = actions.at(-1);
  const lastReview = lookBacks.at(-1);
  return [
    {
      id: 'opened',
      title: 'Opened',
      state: 'done',
      sentence: `By itself, at the run of ${dayAndTime(failure.openedBy.body.madeAt, failure.openedBy.entry.zone)}.`,
    },
    {
      id: 'stopped',
      title: 'Out of service',
      state: window.stopped === null ? 'optional' : 'done',
      sentence:
        window.stopped === null
          ? endedAt(failure) === null
            ? 'Still in service.'
            : 'It stayed in service.'
          : `Since ${dayAndTime(window.stopped)}${window.inService.length > 1 ? ', with a time in service between' : ''}.`,
    },
    {
      id: 'looked-into',
      title: 'Cause looked into',
      state: checksMade > 0 ? 'done' : 'optional',
      sentence:
        checksMade > 0 ? `${counted(checksMade, 'run or check', 'runs and checks')}.` : 'No check yet.',
    },
    ofRequired(
      'action',
      lastAction !== undefined,
      'Corrective action',
      lastAction === undefined
        ? 'Nothing is written down yet.'
        : `${dayAndTime(lastAction.body.doneAt)}: ${lastAction.body.what}`,
    ),
    ofRequired('proof', proof.runs.length >= proof.needed, 'Proven by passing runs', proofSentence(proof)),
    ofRequired(
      'look-back',
      lastReview !== undefined,
      'Patient look-back',
      lastReview === undefined
        ? 'Not reviewed yet.'
        : `Reviewed by ${initialsIn(logbook.technologists, lastReview.body.reviewerId)}, ${dayAndTime(lastReview.at, lastReview.zone)}.`,
    ),
    closedLine(failure, closing, logbook),
  ];
}

function closedLine(
  { ended }: Failure,
  { missing }: Closing,
  logbook: Pick<Logbook, 'technologists'>,
): StepLine {
  const title = 'Closed by a supervisor';
  if (ended === null) {
    const sentence =
      missing.length === 0 ? 'Ready to be closed.' : `${counted(missing.length, 'step')} missing before.`;
    return { id: 'closed', title, state: 'missing', sentence };
  }
  if (ended.by === 'new-baseline') {
    return { id: 'closed', title, state: 'optional', sentence: 'Put aside by a new baseline.' };
  }
  const { closure } = ended;
  const sentence = `By ${initialsIn(logbook.technologists, closure.by)}, ${dayAndTime(closure.body.closedAt, closure.zone)}.`;
  return { id: 'closed', title, state: 'done', sentence };
}

/** How far the proof is, and what counts. */
export function proofSentence({ runs, needed, after }: Proof): string {
  const what = after === 'action' ? 'the last action' : 'the last failing one';
  if (runs.length >= needed) return `${counted(runs.length, 'passing run')} after ${what}.`;
  return `${runs.length} of ${counted(needed, 'passing run')} after ${what}.`;
}

/** Why a run that failed by its verdict proves a repair all the same; empty for any other. */
export function forgivenSentence(assessment: RunAssessment | undefined, quantity: Quantity): string {
  const rules = (assessment?.verdict.findings ?? []).flatMap((finding) =>
    finding.kind === 'signal' && finding.severity === 'action' && finding.quantity === quantity
      ? [finding.rule]
      : [],
  );
  return rules.length === 0 ? '' : `Fails by ${rules.join(', ')}, which reaches back before the action.`;
}

/** What stands in the way of closing, as sentences that say what to do. */
export function missingSentences({ missing, proof }: Closing): readonly string[] {
  const left = proof.needed - proof.runs.length;
  const sentences: Record<RequiredStep, string> = {
    action: 'The corrective action is not written down.',
    proof: `${counted(left, proof.runs.length === 0 ? 'passing run' : 'more passing run')} needed after ${
      proof.after === 'action' ? 'the last action' : 'the last failing run'
    }: inside the published limits and own 2 SD.`,
    'look-back': 'The patient look-back is not reviewed.',
  };
  return missing.map((step) => sentences[step]);
}
