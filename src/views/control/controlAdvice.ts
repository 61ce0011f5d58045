/** What the hands do after a control, under its word. Pure. */
import type { Control } from '../../journal/entries.ts';
import type { ControlAssessment } from '../controlAssessments.ts';

interface AdviceInput {
  kind: Control['kind'];
  assessment: ControlAssessment;
  /** One of its series has a failure that nobody has closed. */
  failureOpen: boolean;
  /** Excluded, or set aside. */
  countsNowhere: boolean;
}

/** What tells the analyzer from everything else. */
const again: Record<Control['kind'], string> = {
  biological: 'Repeat it with another subject, and run the syringe: that tells the analyzer from the person.',
  simulator: 'Repeat the session, and run the syringe: that tells the analyzer from the gas.',
};

/** No sentence sends a patient to the analyzer: that is for the runs and the responsible person to say. */
export function controlAdvice({ kind, assessment, failureOpen, countsNowhere }: AdviceInput): {
  sentence: string;
  next: string;
} {
  const { word, establishing } = assessment.verdict;
  if (word === 'fail') {
    const sentence = 'Test no patients on this analyzer until the responsible person says so.';
    return { sentence, next: again[kind] };
  }
  if (countsNowhere) return { sentence: 'It is written down and counts in no mean.', next: '' };
  if (failureOpen) {
    const sentence = 'A failure of this control is open: nothing enters a mean until a supervisor closes it.';
    return { sentence, next: word === 'warn' ? again[kind] : '' };
  }
  if (word === 'warn') return { sentence: 'Look at it before the next patient.', next: again[kind] };
  if (establishing) {
    return { sentence: 'Nothing speaks against it.', next: 'There are too few of them yet for own limits.' };
  }
  return { sentence: 'As usual: nothing to do.', next: '' };
}
