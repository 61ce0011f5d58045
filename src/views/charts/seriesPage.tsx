import { useId, useMemo, useState } from 'react';
import { Link } from 'wouter';
import { axisView } from '../charting/axisView.ts';
import { buildControlChart } from '../charting/buildControlChart.ts';
import { useChartChoices } from '../charting/chartChoices.ts';
import type { Span } from '../charting/chartWindow.ts';
import { seriesWords } from '../charting/describeSeries.ts';
import { Happenings } from '../charting/happenings.tsx';
import { comparedRows } from '../charting/overlays.ts';
import type { ChartSeries } from '../charting/runSeries.ts';
import { SeriesChart } from '../charting/seriesChart.tsx';
import { measuredWords, seriesHeading } from '../charting/seriesHeading.ts';
import { CompareLink } from '../compareLink.tsx';
import { baselineHref, noticeHref } from '../deskRoutes.ts';
import type { Failure } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { RunLink } from '../parts/runInTable.tsx';
import { TermLine } from '../parts/term.tsx';
import { routeWords } from '../parts/words.ts';
import { comparedChoices, comparedSeries } from './compareSeries.ts';
import { Comparison } from './comparison.tsx';
import { MovedAway } from './movedAway.tsx';
import { RunTable } from './runTable.tsx';
import { useSeriesStory } from './useSeriesStory.ts';

const quantityTerm = { va: 'simulated-va', dlco: 'dlco-of-a-syringe' } as const;
const seriesTerms = [
  'route',
  'published-limit',
  'own-limits',
  'baseline',
  'epoch',
  'z',
  'establishing',
] as const;

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
  const story = useSeriesStory(series, failures);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const choices = useMemo(
    () => comparedChoices(logbook, assessments, series),
    [logbook, assessments, series],
  );
  const charted = useMemo(() => {
    const inOrder = chosen.flatMap((key) => choices.filter((choice) => choice.key === key));
    return { ...story, compared: comparedSeries(logbook, assessments, story.scale, inOrder) };
  }, [story, logbook, assessments, choices, chosen]);
  const model = useMemo(
    () => buildControlChart(charted, { axis, showPublished, window: days }),
    [charted, axis, showPublished, days],
  );
  const label = logbook.analyzers.get(series.analyzerId)?.description.label ?? 'unknown';
  const heading = seriesHeading(series, label);
  const byId = useMemo(() => new Map(story.items.map(({ run }) => [run.id, run])), [story]);
  const words = seriesWords({
    ...story,
    failureIsOpen: story.failures.some(({ ended }) => ended === null),
  });
  const shownRuns = useMemo(
    () => story.items.filter(({ at }) => at >= model.from && at <= model.to),
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
        <TermLine ids={[quantityTerm[series.quantity], ...seriesTerms]} />
        {series.method === 'syringe' ? (
          <div className="line">
            <CompareLink analyzerId={series.analyzerId} />
            <p>
              <Link href={noticeHref(series.analyzerId)}>What would we notice?</Link>
            </p>
            <p>
              <Link href={baselineHref(series)}>Its baseline</Link>
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
        linkTo={(id) => {
          const run = byId.get(id);
          return run ? <RunLink run={run} technologists={logbook.technologists} /> : null;
        }}
        measured={measuredWords[series.quantity]}
        model={model}
        onShow={onShow}
        story={charted}
        words={words}
      />
      <Comparison
        choices={choices}
        chosen={chosen}
        onChoose={setChosen}
        rows={comparedRows(
          [
            {
              key: 'own',
              label: `${label}, ${routeWords[series.route].toLowerCase()}`,
              dash: '',
              items: story.items,
            },
            ...charted.compared,
          ],
          axisView({ ...story, axis }),
          model,
        )}
        unit={axis === 'z' ? '' : story.scale.unit}
      />
      <Happenings source={{ ...story, limitEditions: logbook.limitEditions }} />
      <RunTable heading={heading} runs={shownRuns} scale={story.scale} series={series} />
      <MovedAway series={series} />
    </div>
  );
}
