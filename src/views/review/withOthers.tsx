import type { ReactNode } from 'react';
import { type Failure, seriesKey } from '../failures.ts';
import { TickField } from '../parts/field.tsx';
import { quantityWords, routeWords } from '../parts/words.ts';

export const keyOf = ({ analyzerId, series }: Failure) => seriesKey(analyzerId, series);

export const nameOf = ({ series }: Failure) =>
  `${quantityWords[series.quantity]}, ${routeWords[series.route].toLowerCase()}`;

/** One tick for each other open failure of the analyzer that the same entry may be about. */
export function WithOthers({
  others,
  ticked,
  onTicked,
  label,
}: {
  others: readonly { failure: Failure /** Why it cannot be taken along. */; refused?: ReactNode }[];
  /** By `keyOf`. */
  ticked: readonly string[];
  onTicked: (ticked: readonly string[]) => void;
  label: (name: string) => string;
}) {
  return others.map(({ failure, refused }) => {
    const key = keyOf(failure);
    return (
      <div key={key}>
        <TickField
          checked={refused === undefined && ticked.includes(key)}
          disabled={refused !== undefined}
          label={label(nameOf(failure))}
          onTick={(isTicked) => onTicked(isTicked ? [...ticked, key] : ticked.filter((one) => one !== key))}
        />
        {refused === undefined ? null : <p className="tick-note quiet small">{refused}</p>}
      </div>
    );
  });
}
