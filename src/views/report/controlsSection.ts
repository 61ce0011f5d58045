/** The biological controls and the simulator's sessions of an analyzer in a period: made, judged, charted, and their failures. Pure. */
import { countVerdicts } from '../../core/index.ts';
import type { Control } from '../../journal/entries.ts';
import type { Analyzer, LoggedControl } from '../../journal/logbook.ts';
import { controlSeriesName } from '../charting/controlHeading.ts';
import { listControlSeries, type SeriesOfControls } from '../charting/controlSeries.ts';
import { type ControlStory, controlStory } from '../charting/controlStory.ts';
import { completenessOf } from '../completenessOf.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { limitPercent, plain } from '../parts/figures.ts';
import { checkWords } from '../scheduleWords.ts';
import { rateWords } from './analyzerSummary.ts';
import { chartOf } from './chartsSection.ts';
import { controlFailureBlocks } from './controlFailures.ts';
import { type Block, type Cell, type Section, section, words } from './reportModel.ts';
import { controlsIn, endOf, type Period, type ReportSources, spanOf } from './reportSources.ts';
import { seriesColumns, seriesRows } from './seriesRows.ts';

interface SeriesInPeriod {
  named: SeriesOfControls;
  story: ControlStory;
}

export function controlsSection(
  analyzer: Analyzer,
  period: Period,
  { hasCharts }: { hasCharts: boolean },
  sources: ReportSources,
): readonly Section[] {
  const made = controlsIn(sources.logbook, analyzer.id, period);
  const found = seriesIn(analyzer.id, period, sources);
  return section('controls', 'Biological controls and simulator', [
    ...(made.length === 0 ? [words('None was made in this period.')] : [verdictTable(made, sources)]),
    ...howOften(analyzer, period, sources),
    ...(found.length === 0 ? [] : figures(found, period, sources)),
    ...(hasCharts
      ? found.filter((one) => isCharted(one, period)).map((one) => charted(one, period, sources))
      : []),
    ...controlFailureBlocks(analyzer.id, period, sources),
  ]);
}

function seriesIn(analyzerId: string, period: Period, sources: ReportSources): readonly SeriesInPeriod[] {
  const { logbook, controlAssessments, controlFailures: failures, now } = sources;
  const { from, to } = spanOf(period);
  return listControlSeries(logbook, controlAssessments)
    .filter((named) => named.analyzerId === analyzerId)
    .map((named) => ({ named, story: controlStory(logbook, controlAssessments, named, { failures, now }) }))
    .filter(({ story }) => story.items.some(({ at }) => at >= from && at <= to));
}

function verdictTable(made: readonly LoggedControl[], { logbook }: ReportSources): Block {
  const ofWhom = (control: Control) =>
    control.kind === 'simulator'
      ? 'Simulator'
      : `Biological control ${logbook.subjects.get(control.subjectId)?.description.code ?? 'unknown'}`;
  const names = [...new Set(made.map(({ control }) => ofWhom(control)))].sort();
  return {
    kind: 'table',
    id: 'control-verdicts',
    caption: 'Verdicts on record; what was excluded stands in the count and in no figure',
    columns: [
      { head: 'Control' },
      { head: 'Made', isNumber: true },
      { head: 'Pass', isNumber: true },
      { head: 'Warning', isNumber: true },
      { head: 'Fail', isNumber: true },
      { head: 'Pass rate', isNumber: true },
      { head: 'Excluded', isNumber: true },
      { head: 'Voided besides', isNumber: true },
    ],
    rows: names.map((name): readonly Cell[] => {
      const ofName = made.filter(({ control }) => ofWhom(control) === name);
      const standing = ofName.filter(({ voided }) => voided === null);
      const { passed, warned, failed, passRate } = countVerdicts(
        standing.map((one) => judgedAsWritten(one).word),
      );
      const excluded = standing.filter((one) => one.excluded).length;
      return [
        name,
        ...[standing.length, passed, warned, failed].map(String),
        rateWords(passRate),
        ...[excluded, ofName.length - standing.length].map(String),
      ];
    }),
  };
}

/** Of those of the two that the laboratory makes at an interval. */
function howOften(analyzer: Analyzer, { from, to }: Period, { logbook, now, zone }: ReportSources): Block[] {
  const lines = (['biological-control', 'simulator'] as const).flatMap((check) => {
    const found = completenessOf(logbook, { analyzer, check, period: { from, to }, now, zone });
    if (found === null || found.isNeverNoted || found.whole.due === 0) return [];
    const { due, onTime, late, missed, explained, rate } = found.whole;
    return [
      `${checkWords[check]}: ${due} due, ${onTime} on time (${rateWords(rate)}), ${late} late, ${missed} missed, ${explained} of these with a reason.`,
    ];
  });
  return lines.length === 0 ? [] : [{ kind: 'lines', lines }];
}

function figures(found: readonly SeriesInPeriod[], period: Period, { logbook }: ReportSources): Block[] {
  const { biological, simulator } = checkLimitsAt(logbook, endOf(period));
  return [
    {
      kind: 'table',
      id: 'control-series',
      caption: 'Each person’s DLCO and VA as reported; of the simulator, what was read less its target',
      columns: seriesColumns,
      rows: found.flatMap(({ named, story }) =>
        seriesRows(
          story,
          { name: nameOf(named, logbook), hasCv: named.series.kind === 'biological' },
          spanOf(period),
        ),
      ),
    },
    words(
      `In force at the end of the period: a person’s DLCO within ±${limitPercent(biological.fraction)} % and ±${plain(biological.dlcoMlMinMmHg)} mL/min/mmHg of the mean of the first six tests, a CV of ${limitPercent(biological.cv)} % can be reached; the simulator within ±${plain(simulator.dlcoMlMinMmHg)} mL/min/mmHg of its target.`,
      'quiet',
    ),
  ];
}

const nameOf = ({ series }: SeriesOfControls, logbook: ReportSources['logbook']) =>
  series.kind === 'simulator'
    ? `Simulator, ${controlSeriesName(series, logbook).toLowerCase()}`
    : controlSeriesName(series, logbook);

/** A person's VA is charted where something was found in it: otherwise it only repeats the DLCO's days. */
function isCharted({ named: { series }, story }: SeriesInPeriod, period: Period): boolean {
  if (series.kind === 'simulator' || series.quantity === 'dlco') return true;
  const { from, to } = spanOf(period);
  return story.items.some(
    ({ at, word, voided }) => at >= from && at <= to && voided === null && word !== 'pass',
  );
}

function charted({ named, story }: SeriesInPeriod, period: Period, { logbook }: ReportSources): Block {
  return chartOf(nameOf(named, logbook), { ...story, compared: [] }, period);
}
