import { useMemo } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import type { SeriesRun } from './chartSeries.ts';
import type { Span } from './chartWindow.ts';
import { signalChoices, signalStories } from './signalsShown.ts';

const none = 'none';

/** A signal and the runs that it rests on, each the way to its own page; on the chart they stand in rings. */
export function SignalPanel({
  runs,
  span,
  chosen,
  onChoose,
}: {
  runs: readonly SeriesRun[];
  span: Span;
  /** The id of the run with the signal; empty while none is chosen. */
  chosen: string;
  onChoose: (runId: string) => void;
}) {
  const { logbook } = useLogbook();
  const { count, choices } = useMemo(() => signalChoices(runs, span), [runs, span]);
  const seriesRun = runs.find(({ run }) => run.id === chosen);
  const stories = seriesRun === undefined ? [] : signalStories(seriesRun, runs);
  if (choices.length === 0) return null;
  return (
    <section aria-label="Runs behind a signal" className="signal-panel">
      <ChoiceField
        choices={[{ value: none, label: `none of ${count} chosen` }, ...choices]}
        hint={
          count > choices.length
            ? `The newest ${choices.length} stand here: show less of the time for the others.`
            : undefined
        }
        label="Signal"
        onChoice={(runId) => onChoose(runId === none ? '' : runId)}
        value={choices.some(({ value }) => value === chosen) ? chosen : none}
      />
      {stories.length === 0 ? null : (
        <ul>
          {stories.map(({ rule, words, runs: behind }) => (
            <li key={rule}>
              <strong>{rule}</strong> <span className="quiet">{words}:</span>{' '}
              {behind.map((run, index) => (
                <span key={run.id}>
                  {index === 0 ? null : '; '}
                  <RunLink run={run} technologists={logbook.technologists} />
                </span>
              ))}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
