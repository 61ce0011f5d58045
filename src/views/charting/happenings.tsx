import { type HappeningSource, listHappenings } from './listHappenings.ts';

/** What the flags, bars and lines of the chart stand for, in words. */
export function Happenings({ source }: { source: HappeningSource }) {
  const happenings = listHappenings(source);
  if (happenings.length === 0) return null;
  return (
    <details className="happenings">
      <summary>Events, failures and what was set ({happenings.length})</summary>
      <ul>
        {happenings.map(({ key, when, word, description }) => (
          <li key={key}>
            <span className="quiet">{when}</span> <strong>{word}</strong>
            {description === '' ? null : `: ${description}`}
          </li>
        ))}
      </ul>
    </details>
  );
}
