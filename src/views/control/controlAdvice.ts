/** What the hands do after a control, in one sentence under its word. Pure. */
import type { Control } from '../../journal/entries.ts';
import type { ControlAssessment } from '../controlAssessments.ts';

export interface AdviceInput {
  kind: Control['kind'];
  assessment: ControlAssessment;
  /** One of its series has a failure that nobody has closed. */
  failureOpen: boolean;
  /** Excluded, or set aside. */
  countsNowhere: boolean;
}

const again: Record<Control['kind'], string> = {
  biological: 'Repeat it with another subject, and run the syringe: that tells the analyzer from the person.',
  simulator: 'Repeat the session, and run the syringe: that tells the analyzer from the gas.',
};

/** None of them sends a patient to the analyzer: that is for the runs and the responsible person to say. */
export function controlAdvice({ kind, assessment, failureOpen, countsNowhere }: AdviceInput): string {
  const { word, establishing } = assessment.verdict;
  if (word === 'fail') {
    return `Test no patients on this analyzer until the responsible person says so. ${again[kind]}`;
  }
  if (failureOpen) {
    return 'A failure of this control is open: nothing enters a mean until a supervisor closes it.';
  }
  if (countsNowhere) return 'It is written down and counts in no mean.';
  if (word === 'warn') return `Look at it before the next patient. ${again[kind]}`;
  if (establishing) return 'Nothing speaks against it. There are too few of them yet for own limits.';
  return 'As usual: nothing to do.';
}
