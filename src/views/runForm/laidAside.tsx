import { useState } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { routeWords } from '../parts/words.ts';
import { goBackTo, throwAway } from '../startRun.ts';
import type { BenchDraft } from './benchDraft.ts';

/** Half-typed runs that another run was begun over. */
export default function LaidAside({ aside }: { aside: readonly BenchDraft[] }) {
  // The draft itself, not its place: when one is gone the next moves up, and nobody was asked about that.
  const [asked, setAsked] = useState<BenchDraft | null>(null);
  return (
    <Notice tone="quiet">
      {aside.map((draft, index) => (
        <OneAside
          draft={draft}
          isAsked={draft === asked}
          // biome-ignore lint/suspicious/noArrayIndexKey: two drafts may hold the same
          key={index}
          onAsk={() => setAsked(draft)}
        />
      ))}
    </Notice>
  );
}

function OneAside({
  draft,
  isAsked,
  onAsk,
}: {
  draft: BenchDraft;
  /** Whether to throw it away was asked. */
  isAsked: boolean;
  onAsk: () => void;
}) {
  const { logbook } = useLogbook();
  const label = logbook.analyzers.get(draft.analyzerId)?.description.label ?? 'an analyzer';
  return (
    <div className="line line--baseline">
      <span>
        A half-typed run of <bdi>{label}</bdi> is kept ({routeWords[draft.route].toLowerCase()}
        {typedWords(draft)}).
      </span>
      <button data-weight="line" onClick={() => goBackTo(draft)} type="button">
        Go back to it
      </button>
      <button data-weight="line" onClick={() => (isAsked ? throwAway(draft) : onAsk())} type="button">
        {isAsked ? 'Yes, throw it away' : 'Throw it away…'}
      </button>
    </div>
  );
}

function typedWords({ va, dlco }: BenchDraft): string {
  const typed = [...(va === '' ? [] : [`VA ${va}`]), ...(dlco === '' ? [] : [`DLCO ${dlco}`])];
  return typed.length === 0 ? '' : `; ${typed.join(', ')}`;
}
