/** What a series comes to in a period, a row for each stretch between two baselines: of runs and of controls alike. Pure. */
import { type PolicyStep, policyAt, type SeriesSummary, summarizeSeries } from '../../core/index.ts';
import type { ChartStory } from '../charting/buildControlChart.ts';
import type { SeriesItem } from '../charting/seriesItem.ts';
import type { SeriesScale } from '../charting/seriesScale.ts';
import { limitWidths } from '../judgedBy.ts';
import { day, percent, zOnChart } from '../parts/figures.ts';
import type { Cell, Column } from './reportModel.ts';

export const none = '–';

export const seriesColumns: readonly Column[] = [
  { head: 'Series', width: 27 },
  { head: 'n', isNumber: true },
  { head: 'Mean', isNumber: true },
  { head: 'SD', isNumber: true },
  { head: 'CV', isNumber: true },
  { head: 'Own limits in force', width: 21 },
  { head: 'Published limits from the mean', width: 20 },
];

interface Span {
  from: number;
  to: number;
}

type Story = Pick<ChartStory, 'items' | 'scale' | 'policySteps'>;

export interface SeriesNaming {
  name: string;
  /** False for what lies about zero: its SD in percent of that says nothing. */
  hasCv: boolean;
}

/** Voided ones and those that were set aside are not in the figures. */
export function seriesRows(
  { items, scale, policySteps }: Story,
  { name, hasCv }: SeriesNaming,
  { from, to }: Span,
): readonly (readonly Cell[])[] {
  const counting = items.filter(
    ({ at, voided, setAside }) => at >= from && at <= to && voided === null && setAside === null,
  );
  const epochs = [...new Set(counting.map(({ epoch }) => epoch))];
  const stretches = epochs.map((epoch) => counting.filter((item) => item.epoch === epoch));
  return stretches.flatMap((stretch): (readonly Cell[])[] => {
    const [first] = stretch;
    const last = stretch.at(-1);
    if (first === undefined || last === undefined) return [];
    const summary = summarizeSeries(
      stretch.map(({ value }) => value),
      last.published,
    );
    const span = stretches.length > 1 ? `, ${day(first.at)} to ${day(last.at)}` : '';
    return [
      [
        `${name}, ${scale.unit}${span}`,
        String(summary.n),
        summary.mean === null ? none : scale.mean(summary.mean),
        summary.sd === null ? none : scale.sd(summary.sd),
        hasCv && summary.cv !== null ? `${percent(summary.cv, 2)} %` : none,
        ownLimits(last, scale, policySteps),
        publishedWords(summary),
      ],
    ];
  });
}

/** Those that the last one was judged by. */
function ownLimits(
  { at, evaluation: { n, mean, sd } }: SeriesItem,
  scale: SeriesScale,
  policySteps: readonly PolicyStep[],
): string {
  if (mean === null || sd === null) return 'none yet';
  const { outer } = limitWidths(policyAt(policySteps, at), n);
  const [low, high] = [mean - outer * sd, mean + outer * sd].map((limit) => scale.mean(scale.inUnit(limit)));
  return `${low} to ${high} (n\u00a0${n})`;
}

const publishedWords = ({ lowLimitSd, highLimitSd }: SeriesSummary): string =>
  lowLimitSd === null || highLimitSd === null
    ? none
    : `${zOnChart(lowLimitSd)} and ${zOnChart(highLimitSd)} SD`;
