/** A word that explains itself where it stands: pressed, it says what is meant, where that comes from and how it is made. */
import { type ReactNode, useId, useState } from 'react';
import { Link } from 'wouter';
import { methodHref } from '../deskRoutes.ts';
import { type TermId, termOf } from '../terms.ts';
import { asSentence } from './asSentence.ts';
import './term.css';

/** `children`: the word as the sentence around it has it, where that is not its name. */
export function Term({ id, children }: { id: TermId; children?: ReactNode }) {
  const [isOpen, setOpen] = useState(false);
  const noteId = useId();
  const { name, says, source, place } = termOf(id);
  return (
    <span className="term">
      <button
        aria-controls={isOpen ? noteId : undefined}
        aria-expanded={isOpen}
        className="term__word"
        onClick={() => setOpen(!isOpen)}
        onKeyDown={({ key }) => {
          if (key === 'Escape') setOpen(false);
        }}
        type="button"
      >
        {children ?? name} <span className="for-readers">(what it means)</span>
      </button>
      {isOpen ? (
        <span className="term__note" id={noteId}>
          <strong>{name}.</strong> {says} <span className="quiet">Source: {asSentence(source)}</span>{' '}
          <Link href={methodHref(place)}>How it is made</Link>
        </span>
      ) : null}
    </span>
  );
}

/** The words of a page in one line, for where they stand in headings, tables and charts that have no room to explain. */
export function TermLine({ ids }: { ids: readonly TermId[] }) {
  const labelId = useId();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for what is filled in.
    <div aria-labelledby={labelId} className="term-line screen-only" role="group">
      <span className="quiet" id={labelId}>
        What is meant by
      </span>
      {ids.map((id) => (
        <Term id={id} key={id} />
      ))}
    </div>
  );
}
