/** The checks of an analyzer, or of syringes and the barometer, other than simulations and controls. Pure. */
import type { NotedCheck } from '../../journal/entries.ts';
import type { Logbook, LoggedCheck } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { figuresInWords } from '../checkFigures.ts';
import { asSentence } from '../parts/asSentence.ts';
import { day, limitPercent, signedPercent } from '../parts/figures.ts';
import { checkWords, outcomeWords } from '../scheduleWords.ts';
import { checkDeviations } from './checkDeviations.ts';
import { type Block, type Cell, type Section, section, words } from './reportModel.ts';
import { isIn, type Period, type ReportSources } from './reportSources.ts';

/** In the order of the table. */
const order: readonly NotedCheck[] = [
  'volume-check',
  'linearity',
  'biological-control',
  'syringe-calibration',
  'syringe-leak',
  'barometer',
];

export function checksIn(
  { checks }: Pick<Logbook, 'checks'>,
  period: Period,
  isAbout: (check: LoggedCheck['entry']['body']) => boolean,
): readonly LoggedCheck[] {
  const inPeriod = isIn(period);
  return checks.filter(
    ({ entry, voided }) => voided === null && isAbout(entry.body) && inPeriod(entry.body.doneAt, entry.zone),
  );
}

export const checksSection = (
  analyzerId: string,
  period: Period,
  sources: ReportSources,
): readonly Section[] =>
  blocksOf(
    'checks',
    'Other checks of the analyzer',
    period,
    sources,
    (body) => body.analyzerId === analyzerId,
  );

/** Of the syringes and the barometer. */
export const laboratoryChecksSection = (period: Period, sources: ReportSources): readonly Section[] =>
  blocksOf(
    'laboratory-checks',
    'Checks of syringes and barometer',
    period,
    sources,
    (body) => body.analyzerId === null,
  );

function blocksOf(
  id: string,
  title: string,
  period: Period,
  sources: ReportSources,
  isAbout: (check: LoggedCheck['entry']['body']) => boolean,
): readonly Section[] {
  const made = checksIn(sources.logbook, period, isAbout);
  return section(
    id,
    title,
    made.length === 0
      ? [words('None was noted in this period.')]
      : [summary(made), ...notPassed(made, sources)],
  );
}

function summary(made: readonly LoggedCheck[]): Block {
  const rows = order.flatMap((check): (readonly Cell[])[] => {
    const ofKind = made.filter(({ entry }) => entry.body.check === check);
    const last = ofKind.at(-1);
    if (last === undefined) return [];
    const count = (outcome: 'passed' | 'failed' | 'noted') =>
      String(ofKind.filter(({ entry }) => entry.body.outcome === outcome).length);
    const figures = ofKind.flatMap(({ entry }) => checkDeviations(entry.body));
    const largest = figures.toSorted((one, other) => Math.abs(other.fraction) - Math.abs(one.fraction))[0];
    return [
      [
        checkWords[check],
        String(ofKind.length),
        count('passed'),
        count('failed'),
        count('noted'),
        largest === undefined ? '–' : `${signedPercent(largest.fraction, 2)} %`,
        largest === undefined ? '–' : `±${limitPercent(largest.limitFraction)} %`,
        day(last.entry.body.doneAt, last.entry.zone),
      ],
    ];
  });
  return {
    kind: 'table',
    id: 'checks',
    caption: 'Made in the period; the largest deviation is of what was expected, of linearity of full scale',
    columns: [
      { head: 'Check' },
      { head: 'Made', isNumber: true },
      { head: 'Passed', isNumber: true },
      { head: 'Failed', isNumber: true },
      { head: 'Noted', isNumber: true },
      { head: 'Largest deviation', isNumber: true },
      { head: 'Limit', isNumber: true },
      { head: 'Last on' },
    ],
    rows,
  };
}

function notPassed(made: readonly LoggedCheck[], { logbook }: ReportSources): Block[] {
  const failed = made.filter(({ entry }) => entry.body.outcome === 'failed');
  if (failed.length === 0) return [];
  return [
    {
      kind: 'table',
      id: 'failed-checks',
      caption: 'Checks that failed',
      columns: [
        { head: 'On', width: 16 },
        { head: 'Check', width: 24 },
        { head: 'Outcome', width: 12 },
        { head: 'Figures and note' },
        { head: 'By', width: 7 },
      ],
      rows: failed.map(({ entry: { body, zone } }) => [
        day(body.doneAt, zone),
        checkWords[body.check],
        { text: outcomeWords[body.outcome], mark: 'fail' },
        [...figuresInWords(body), ...(body.note === '' ? [] : [body.note])].map(asSentence).join(' ') || '–',
        initialsIn(logbook.technologists, body.technologistId),
      ]),
    },
  ];
}
