import { useMemo } from 'react';
import { Link } from 'wouter';
import type { Span } from '../charting/chartWindow.ts';
import { controlHeading } from '../charting/controlHeading.ts';
import type { SeriesOfControls } from '../charting/controlSeries.ts';
import { Happenings } from '../charting/happenings.tsx';
import { controlSeriesHref, subjectHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { quantityWords } from '../parts/words.ts';
import { subjectStanding } from '../subjectStanding.ts';
import { useControlAssessments } from '../useControlAssessments.ts';
import { BesideSimulations } from './besideSimulations.tsx';
import { buildControlRows } from './buildControlRows.ts';
import { ControlTable } from './controlTable.tsx';
import { NothingMade } from './nothingMade.tsx';
import { readTogetherOf, sameDayRuns } from './sameDays.ts';
import { SeriesSection } from './seriesSection.tsx';
import { useControlStory } from './useControlStory.ts';
import { WaysOn } from './waysOn.tsx';

/** A person's DLCO or VA on one analyzer, beside the simulations of the same days. */
export function BiologicalPage({
  named,
  days,
  onShow,
}: {
  named: SeriesOfControls & { series: { kind: 'biological' } };
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const { logbook, assessments } = useLogbook();
  const controls = useControlAssessments();
  const story = useControlStory(named);
  const { analyzerId, series } = named;
  const { items, scale, noun } = story;
  const standing = subjectStanding(logbook, series.subjectId, new Date().toISOString());
  const together = useMemo(
    () => readTogetherOf(items, series.quantity, { logbook, assessments, controls }),
    [items, series.quantity, logbook, assessments, controls],
  );
  const rows = useMemo(() => {
    const sameDay = sameDayRuns(
      logbook,
      items.map(({ logged }) => logged),
    );
    return buildControlRows([{ items, scale }], { technologists: logbook.technologists, sameDay });
  }, [items, scale, logbook]);
  const heading = controlHeading(named, logbook);
  if (items.length === 0)
    return <NothingMade analyzerId={analyzerId} heading={heading} kind="biological-control" />;
  const other = series.quantity === 'dlco' ? 'va' : 'dlco';
  const inView = (at: number) => days === null || (at >= days.from && at <= days.to);
  return (
    <div className="stack stack--loose">
      <SeriesSection days={days} named={named} onShow={onShow} story={story} title={<h1>{heading}</h1>}>
        {standing.words === '' ? null : (
          <Notice
            title={`${standing.code} ${standing.words}${standing.reason === '' ? '' : `: ${standing.reason}`}`}
            tone="quiet"
          />
        )}
        <WaysOn analyzerId={analyzerId} kind="biological-control">
          <Link href={controlSeriesHref(analyzerId, { ...series, quantity: other })}>
            {quantityWords[other]} of the same tests
          </Link>
          <Link href={subjectHref(series.subjectId)}>{standing.code} under Equipment</Link>
        </WaysOn>
      </SeriesSection>
      <BesideSimulations together={together} />
      <Happenings source={story} />
      <ControlTable
        caption={`${heading}: the tests of the chart, newest first`}
        columns={[{ of: '', title: quantityWords[series.quantity], unit: scale.unit }]}
        hasHaemoglobin
        noun={noun}
        offUnit={series.quantity === 'dlco' ? scale.unit : null}
        rows={rows.filter(({ logged }) => inView(logged.at))}
      />
    </div>
  );
}
