import type { VerdictWord } from '../../core/index.ts';
import { verdictWords } from './words.ts';

/** Says the verdict of what is being typed to a screen reader whenever it changes; on the page it stands beside the form. */
export function VerdictSoFar({ word }: { word: VerdictWord | undefined }) {
  return (
    <p className="for-readers" role="status">
      {word === undefined ? '' : `Verdict so far: ${verdictWords[word].toLowerCase()}`}
    </p>
  );
}
