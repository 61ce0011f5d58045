import { TickField } from '../parts/field.tsx';
import { useChartChoices } from './chartChoices.ts';
import { lastMonths, type Span } from './chartWindow.ts';
import type { ControlChartModel } from './controlChartModel.ts';

/** How much of the time the chart shows, and on which axis. */
export function ChartControls({
  model: { whole, publishedCanBeOutside },
  isAll,
  onShow,
}: {
  model: Pick<ControlChartModel, 'whole' | 'publishedCanBeOutside'>;
  isAll: boolean;
  onShow: (shown: Span | null) => void;
}) {
  const { axis, showPublished, showMemory, choose } = useChartChoices();
  return (
    <div className="chart-controls">
      <fieldset aria-label="Time shown" className="chart-controls__time">
        <button onClick={() => onShow(lastMonths(whole, 3))} type="button">
          Last 3 months
        </button>
        <button onClick={() => onShow(lastMonths(whole, 12))} type="button">
          Last year
        </button>
        <button aria-pressed={isAll} onClick={() => onShow(null)} type="button">
          All
        </button>
      </fieldset>
      <TickField
        checked={axis === 'z'}
        label="z in place of values"
        onTick={(isZ) => choose({ axis: isZ ? 'z' : 'value' })}
      />
      {publishedCanBeOutside || showPublished ? (
        <TickField
          checked={showPublished}
          label="Show the published limits"
          onTick={(isShown) => choose({ showPublished: isShown })}
        />
      ) : null}
      <TickField
        checked={showMemory}
        label="EWMA and CUSUM below"
        onTick={(isShown) => choose({ showMemory: isShown })}
      />
    </div>
  );
}
