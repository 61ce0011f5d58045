import { type Change, ChangeList } from './history.tsx';

/** What a correction changes, as far as it is typed. `null`: the form cannot be read yet. */
export function WhatChanges({ changes }: { changes: readonly Change[] | null }) {
  return (
    <section aria-label="What changes" className="stack">
      <h2>What changes</h2>
      {changes === null ? (
        <p className="quiet">A value is missing or cannot be right; the message stands beside it.</p>
      ) : changes.length === 0 ? (
        <p className="quiet">Nothing yet.</p>
      ) : (
        <ChangeList changes={changes} />
      )}
    </section>
  );
}
