/** The charts of an analyzer's runs over a period, as paper shows them: own limits, with the published ones named at the edge. Pure. */
import { buildControlChart, type ChartStory } from '../charting/buildControlChart.ts';
import { type ChartSeries, listSeries } from '../charting/runSeries.ts';
import { runStory } from '../charting/runStory.ts';
import { measuredWords } from '../charting/seriesHeading.ts';
import { counted } from '../parts/figures.ts';
import { routeWords } from '../parts/words.ts';
import { type Block, type Section, section, words } from './reportModel.ts';
import { type Period, type ReportSources, spanOf } from './reportSources.ts';

/** Every series of an analyzer with a run in the period, with its story. */
export function seriesIn(
  analyzerId: string,
  period: Period,
  sources: ReportSources,
): readonly SeriesInPeriod[] {
  const { logbook, assessments, failures, now } = sources;
  const { from, to } = spanOf(period);
  return listSeries(logbook, assessments)
    .filter((series) => series.analyzerId === analyzerId)
    .map((series) => ({ series, story: runStory(logbook, assessments, series, { failures, now }) }))
    .filter(({ story }) => story.items.some(({ at }) => at >= from && at <= to));
}

export interface SeriesInPeriod {
  series: ChartSeries;
  story: ReturnType<typeof runStory>;
}

/** `patient test`; another method than the syringe is named behind it. */
export const howWords = ({ route, method }: ChartSeries) =>
  `${routeWords[route].toLowerCase()}${method === 'syringe' ? '' : ', precision gas'}`;

export const chartsSection = (found: readonly SeriesInPeriod[], period: Period): readonly Section[] =>
  section(
    'charts',
    'Charts of the simulations',
    found.length === 0
      ? []
      : [
          key(),
          ...found.map(({ series, story }) =>
            chartOf(
              `${measuredWords[series.quantity]}, ${howWords(series)}`,
              { ...story, compared: [] },
              period,
            ),
          ),
        ],
  );

const key = () =>
  words(
    'Dots joined by a thin line: runs. Pale band: own 2 SD; dotted edges: own 3 SD; dashes and dots: own mean; long dashes: published limits, named at the edge where they lie outside. One thick bar: warning; two bars through a box: fail, each with the rule that fired. Open dot: before own limits could judge; ringed: not in the mean and SD; crossed: voided. Flags: events; bar at the foot: a failure was open.',
    'quiet',
  );

/** The chart of one series over the period. */
export function chartOf(title: string, story: ChartStory, period: Period): Block {
  const span = spanOf(period);
  const within = story.items.filter(({ at }) => at >= span.from && at <= span.to);
  const marked = within.filter(({ voided, word }) => voided === null && word !== 'pass').length;
  const widened = story.inForce.policy.smallSample ? ' Own limits are widened while they rest on few.' : '';
  return {
    kind: 'chart',
    title: `${title}, in ${story.scale.unit}`,
    caption: `${counted(within.length, story.noun)}, ${marked === 0 ? 'none' : marked} with a warning or a failure.${widened}`,
    chart: buildControlChart(story, { axis: 'value', showPublished: false, window: span }),
  };
}
