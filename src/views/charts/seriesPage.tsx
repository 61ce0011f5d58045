import { useId, useMemo, useState } from 'react';
import { policyStepsOf } from '../../journal/standing.ts';
import { CompareLink } from '../compareLink.tsx';
import { type Failure, openFailures, seriesKey } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { TickField } from '../parts/field.tsx';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { buildControlChart } from './buildControlChart.ts';
import { type ChartSeries, runsOfSeries } from './chartSeries.ts';
import { ControlChart } from './controlChart.tsx';
import { bandSentence, seriesHeading, seriesWords } from './describeSeries.ts';
import { Happenings } from './happenings.tsx';
import { limitsInForce } from './limitsInForce.ts';
import { MovedAway } from './movedAway.tsx';
import { RunTable } from './runTable.tsx';

/** The right page: one series, its figures, its chart, and the table of the same runs. */
export function SeriesPage({ series, failures }: { series: ChartSeries; failures: readonly Failure[] }) {
  const { logbook, assessments } = useLogbook();
  const [showPublished, setShowPublished] = useState(false);
  const headingId = useId();
  const descriptionId = useId();
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
  const model = useMemo(() => buildControlChart({ ...story, showPublished }), [story, showPublished]);
  const heading = seriesHeading(
    series,
    logbook.analyzers.get(series.analyzerId)?.description.label ?? 'unknown',
  );
  const words = seriesWords(story.runs, story.scale, story.inForce, openFailures(story.failures).length > 0);
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
        {series.method === 'syringe' ? <CompareLink analyzerId={series.analyzerId} /> : null}
        {story.impossible > 0 ? (
          <Notice
            title={`${counted(story.impossible, 'run')} of this series cannot be: left out here, named under Records.`}
            tone="warn"
          />
        ) : null}
      </div>
      <figure className="stack">
        <ControlChart
          describedBy={descriptionId}
          labelledBy={headingId}
          model={model}
          name={heading}
          scale={story.scale}
        />
        <figcaption className="chart-caption">
          <span className="for-readers" id={descriptionId}>
            {words.description}
          </span>
          <span>{words.runs}</span>
          <span>
            {bandSentence(story.inForce.policy)} Long dashes: published. Open dot: before own limits could
            judge. Crossed dot: voided.
          </span>
          {model.publishedCanBeOutside ? (
            <TickField checked={showPublished} label="Show the published limits" onTick={setShowPublished} />
          ) : null}
        </figcaption>
      </figure>
      <Happenings source={{ ...story, limitEditions: logbook.limitEditions }} />
      <RunTable heading={heading} runs={story.runs} scale={story.scale} series={series} />
      <MovedAway series={series} />
    </div>
  );
}
