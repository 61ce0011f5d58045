import { useMemo } from 'react';
import type { ControlSeriesName, SimulatorLevel } from '../../journal/entries.ts';
import type { Span } from '../charting/chartWindow.ts';
import { levelWords } from '../charting/controlHeading.ts';
import type { SeriesOfControls } from '../charting/controlSeries.ts';
import { Happenings } from '../charting/happenings.tsx';
import { useLogbook } from '../logbookContext.tsx';
import { buildControlRows } from './buildControlRows.ts';
import { ControlTable } from './controlTable.tsx';
import { NothingMade } from './nothingMade.tsx';
import { sameDayRuns } from './sameDays.ts';
import { SeriesSection } from './seriesSection.tsx';
import { useControlStory } from './useControlStory.ts';
import { WaysOn } from './waysOn.tsx';

const levelSeries = (level: SimulatorLevel): ControlSeriesName => ({ kind: 'simulator', level });

/** The sessions of an analyzer with a simulator: a chart for each level, the one that was asked for first, and one table. */
export function SimulatorPage({
  analyzerId,
  level,
  days,
  onShow,
}: {
  analyzerId: string;
  level: SimulatorLevel;
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const { logbook } = useLogbook();
  const named = useMemo(
    () => ({
      low: { analyzerId, series: levelSeries('low') },
      high: { analyzerId, series: levelSeries('high') },
    }),
    [analyzerId],
  );
  const stories = { low: useControlStory(named.low), high: useControlStory(named.high) };
  const { low, high } = stories;
  const rows = useMemo(() => {
    const sameDay = sameDayRuns(
      logbook,
      [...low.items, ...high.items].map(({ logged }) => logged),
    );
    return buildControlRows([low, high], { technologists: logbook.technologists, sameDay });
  }, [low, high, logbook]);
  const label = logbook.analyzers.get(analyzerId)?.description.label ?? 'unknown';
  const heading = `Precision-gas simulator, ${label}`;
  if (rows.length === 0) return <NothingMade analyzerId={analyzerId} heading={heading} kind="simulator" />;
  const order: readonly SimulatorLevel[] = level === 'high' ? ['high', 'low'] : ['low', 'high'];
  const inView = (at: number) => days === null || (at >= days.from && at <= days.to);
  const split = rows.filter(({ acrossLevels }) => acrossLevels);
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <h1>{heading}</h1>
        {split.length === 0 ? null : (
          <p>
            R-4s between the two levels of one session is marked in both charts, and named in the table below.
          </p>
        )}
        <WaysOn analyzerId={analyzerId} kind="simulator" />
      </div>
      {order.map((one) => (
        <Level days={days} key={one} level={one} named={named[one]} onShow={onShow} story={stories[one]} />
      ))}
      <Happenings source={{ ...low, failures: [...low.failures, ...high.failures] }} />
      <ControlTable
        caption={`${heading}: its sessions, newest first`}
        columns={(['low', 'high'] as const).map((one) => ({
          of: one === 'low' ? 'Low' : 'High',
          title: 'off target',
          unit: stories[one].scale.unit,
        }))}
        hasHaemoglobin={false}
        noun="session"
        offUnit={null}
        rows={rows.filter(({ logged }) => inView(logged.at))}
      />
    </div>
  );
}

function Level({
  named,
  level,
  story,
  days,
  onShow,
}: {
  named: SeriesOfControls;
  level: SimulatorLevel;
  story: ReturnType<typeof useControlStory>;
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  if (story.items.length === 0) {
    return (
      <div className="stack group">
        <h2>{levelWords[level]}</h2>
        <p className="quiet">No session had this level yet.</p>
      </div>
    );
  }
  return (
    <div className="group">
      <SeriesSection
        days={days}
        named={named}
        onShow={onShow}
        part={levelWords[level].toLowerCase()}
        story={story}
        title={<h2>{levelWords[level]}</h2>}
      />
    </div>
  );
}
