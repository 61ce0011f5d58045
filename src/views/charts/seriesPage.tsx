import { useId, useMemo } from 'react';
import { Link } from 'wouter';
import { policyStepsOf } from '../../journal/standing.ts';
import { CompareLink } from '../compareLink.tsx';
import { type Failure, openFailures, seriesKey } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { noticeHref } from '../routes.ts';
import { buildControlChart } from './buildControlChart.ts';
import { useChartChoices } from './chartChoices.ts';
import { type ChartSeries, runsOfSeries } from './chartSeries.ts';
import type { Span } from './chartWindow.ts';
import { seriesHeading, seriesWords } from './describeSeries.ts';
import { Happenings } from './happenings.tsx';
import { limitsInForce } from './limitsInForce.ts';
import { MovedAway } from './movedAway.tsx';
import { RunTable } from './runTable.tsx';
import { SeriesChart } from './seriesChart.tsx';

/** The right page: one series, its figures, its chart, and the table of the same runs. */
export function SeriesPage({
  series,
  failures,
  days,
  onShow,
}: {
  series: ChartSeries;
  failures: readonly Failure[];
  /** The part of the time that the address asks for; null for all of it. */
  days: Span | null;
  onShow: (shown: Span | null) => void;
}) {
  const { logbook, assessments } = useLogbook();
  const { axis, showPublished } = useChartChoices();
  const headingId = useId();
  const story = useMemo(() => {
    const { runs, scale, impossible } = runsOfSeries(logbook, assessments, series);
    const key = seriesKey(series.analyzerId, series);
    return {
      runs,
      scale,
      impossible,
      inForce: limitsInForce(logbook, series, runs, scale, Date.now()),
      policySteps: policyStepsOf(logbook, series.analyzerId),
      policies: logbook.policies.filter(({ body }) => body.analyzerId === series.analyzerId),
      events: logbook.events.filter(({ body }) => body.analyzerId === series.analyzerId),
      baselineStarts: logbook.baselineStarts.filter(({ body }) => body.analyzerId === series.analyzerId),
      failures: failures.filter((failure) => seriesKey(failure.analyzerId, failure.series) === key),
    };
  }, [logbook, assessments, series, failures]);
  const model = useMemo(
    () => buildControlChart(story, { axis, showPublished, window: days }),
    [story, axis, showPublished, days],
  );
  const label = logbook.analyzers.get(series.analyzerId)?.description.label ?? 'unknown';
  const heading = seriesHeading(series, label);
  const words = seriesWords(story.runs, story.scale, story.inForce, openFailures(story.failures).length > 0);
  const shownRuns = useMemo(
    () => story.runs.filter(({ at }) => at >= model.from && at <= model.to),
    [story, model],
  );
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <h1 id={headingId}>{heading}</h1>
        <p className="series-figures">
          {words.figures.map(({ name, value, unit }) => (
            <span key={name}>
              <span className="quiet">{name}</span> {value} <span className="unit">{unit}</span>
            </span>
          ))}
          {words.missing}
        </p>
        <p>{words.published}</p>
        {series.method === 'syringe' ? (
          <div className="line">
            <CompareLink analyzerId={series.analyzerId} />
            <p>
              <Link href={noticeHref(series.analyzerId)}>What would we notice?</Link>
            </p>
          </div>
        ) : null}
        {story.impossible > 0 ? (
          <Notice
            title={`${counted(story.impossible, 'run')} of this series cannot be: left out here, named under Records.`}
            tone="warn"
          />
        ) : null}
      </div>
      <SeriesChart
        heading={heading}
        labelledBy={headingId}
        model={model}
        onShow={onShow}
        story={story}
        words={words}
      />
      <Happenings source={{ ...story, limitEditions: logbook.limitEditions }} />
      <RunTable heading={heading} runs={shownRuns} scale={story.scale} series={series} />
      <MovedAway series={series} />
    </div>
  );
}
