import type { ReactNode } from 'react';
import { type MarkShape, VerdictMark } from '../parts/verdictMark.tsx';

interface ListedLine {
  name: string;
  /** How the last came out; null while there is none, and then `markWord` says so. */
  mark: MarkShape | null;
  markWord: string;
  failureOpen: boolean;
}

/** A series in a list: how its last came out, by shape and in words. `figure` stands at its end, `below` under its name. */
export function LineState({
  line: { name, mark, markWord, failureOpen },
  standing = '',
  figure,
  below,
}: {
  line: ListedLine;
  /** Beside the name, where there is anything to say. */
  standing?: string;
  figure: ReactNode;
  below: ReactNode;
}) {
  return (
    <span className="series-line">
      {mark === null ? (
        <span />
      ) : (
        <span data-shape={mark} title={markWord}>
          <VerdictMark shape={mark} />
        </span>
      )}
      <span>
        {name}
        <span className="for-readers">: {markWord}</span>
        {standing === '' ? null : <span className="quiet small"> {standing}</span>}
      </span>
      {figure}
      <span className="series-line__since">
        {mark === null ? markWord : below}
        {failureOpen ? <span className="series-line__open"> failure open</span> : null}
      </span>
    </span>
  );
}
