import { type ReactNode, useMemo } from 'react';
import { ChoiceField } from '../parts/field.tsx';
import { Term } from '../parts/term.tsx';
import { ruleTerm } from '../terms.ts';
import type { Span } from './chartWindow.ts';
import type { SeriesItem } from './seriesItem.ts';
import { signalChoices, signalStories } from './signalsShown.ts';

const none = 'none';

/** A signal and what it rests on, each the way to its own page; on the chart they stand in rings. */
export function SignalPanel({
  items,
  noun,
  span,
  chosen,
  linkTo,
  part,
  onChoose,
}: {
  items: readonly SeriesItem[];
  noun: string;
  span: Span;
  /** The id of the one with the signal; empty while none is chosen. */
  chosen: string;
  /** When one was made, as the way to its page. */
  linkTo: (id: string) => ReactNode;
  part: string;
  onChoose: (id: string) => void;
}) {
  const { count, choices } = useMemo(() => signalChoices(items, span), [items, span]);
  const item = items.find(({ id }) => id === chosen);
  const stories = item === undefined ? [] : signalStories(item, noun);
  if (choices.length === 0) return null;
  return (
    <section
      aria-label={labelOf(`${noun.slice(0, 1).toUpperCase()}${noun.slice(1)}s behind a signal`, part)}
      className="signal-panel"
    >
      <ChoiceField
        choices={[{ value: none, label: `none of ${count} chosen` }, ...choices]}
        hint={
          count > choices.length
            ? `The newest ${choices.length} stand here: show less of the time for the others.`
            : undefined
        }
        label="Signal"
        onChoice={(id) => onChoose(id === none ? '' : id)}
        value={choices.some(({ value }) => value === chosen) ? chosen : none}
      />
      {stories.length === 0 ? null : (
        <ul>
          {stories.map(({ rule, words, ids }) => (
            <li key={rule}>
              <Term id={ruleTerm(rule)}>
                <strong>{rule}</strong>
              </Term>{' '}
              <span className="quiet">{words}:</span>{' '}
              {ids.map((id, index) => (
                <span key={id}>
                  {index === 0 ? null : '; '}
                  {linkTo(id)}
                </span>
              ))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** With the part of the page that it belongs to, where there are several. */
export const labelOf = (name: string, part: string) => (part === '' ? name : `${name}, ${part}`);
