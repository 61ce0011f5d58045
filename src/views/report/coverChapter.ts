/** The first page: of whom, of when, made by whom, what it is and is not, and by what the journal it was read from can be known. Pure. */

import type { Analyzer } from '../../journal/logbook.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import { civilDay, counted, dayAndTime } from '../parts/figures.ts';
import { analyzerSummary, summaryColumns, type Weeks } from './analyzerSummary.ts';
import { controlFailuresInShort } from './controlFailures.ts';
import { howTheChainsStood, whatIsWrong } from './journalFound.ts';
import { type Chapter, words } from './reportModel.ts';
import type { Period, ReportSources } from './reportSources.ts';

const reportTitle = 'Quality control of DLCO analyzers';

const periodWords = ({ from, to }: Period) => `${civilDay(from)} to ${civilDay(to)}`;

/** At the head of every page. */
export function runningHead(period: Period, { logbook, demonstration }: ReportSources): string {
  const { name } = laboratoryOf(logbook);
  return [
    ...(demonstration ? ['Demonstration data'] : []),
    ...(name === '' ? [] : [name]),
    reportTitle,
    periodWords(period),
  ].join(' · ');
}

export function coverChapter(
  analyzers: readonly Analyzer[],
  period: Period,
  sources: ReportSources,
  weeks: Weeks,
): Chapter {
  const { logbook, now, madeBy, heads, journal, demonstration } = sources;
  const { name } = laboratoryOf(logbook);
  return {
    id: 'cover',
    title: reportTitle,
    sections: [
      {
        id: 'about',
        title: name === '' ? 'Laboratory without a name' : name,
        blocks: [
          ...(demonstration
            ? [words('Demonstration data: an invented laboratory. Nothing here is a measurement.', 'warn')]
            : []),
          ...whatIsWrong(journal),
          {
            kind: 'facts',
            rows: [
              { name: 'Period', value: `${periodWords(period)}, both days in` },
              {
                name: 'Analyzers',
                value: analyzers.map(({ description }) => description.label).join(', ') || 'none',
              },
              { name: 'Made', value: dayAndTime(now) },
              {
                name: 'Made by',
                value: madeBy === null ? 'nobody was named' : `${madeBy.initials}, ${madeBy.name}`,
              },
              {
                name: 'From',
                value: `Diffusion QC Logbook, ${counted(logbook.entryCount, 'entry', 'entries')}`,
              },
            ],
          },
        ],
      },
      {
        id: 'at-a-glance',
        title: 'At a glance',
        blocks: [
          {
            kind: 'table',
            id: 'at-a-glance',
            caption: 'Weekly simulations with the syringe',
            columns: summaryColumns,
            rows: analyzers.map((analyzer) => analyzerSummary(analyzer, period, sources, weeks)),
          },
          words(controlFailuresInShort(analyzers, period, sources)),
        ],
      },
      {
        id: 'what',
        title: 'What this is, and what it is not',
        blocks: [
          words(
            'It is read from the laboratory’s journal, in which nothing is erased: what was put right stands beside what it replaced. A run’s verdict is the one of its day, or of its newest amendment.',
          ),
          words(
            'It sums up. Every single value, who entered it and every later change stand in the files of the assessor’s package of the same period.',
          ),
          words(
            'It holds no patient’s data, claims conformity with no regulation, and is no medical device’s output. Whether an analyzer may be used is decided by the laboratory’s responsible person, local procedure and the manufacturer’s instructions.',
          ),
          words(
            `Paper proves nothing by itself. The hash of each workstation’s last entry ties down all that was written before it: whoever holds the journal can look whether it still leads there. ${howTheChainsStood(journal)}`,
          ),
          {
            kind: 'hashes',
            lines: [...heads].map(
              ([workstation, { seq, hash }]) =>
                `Workstation ${workstation}: entry ${seq} is the last, hash ${hash}`,
            ),
          },
        ],
      },
    ],
  };
}
