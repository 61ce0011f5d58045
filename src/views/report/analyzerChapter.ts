/** All that a report says of one analyzer. Pure. */
import type { Analyzer } from '../../journal/logbook.ts';
import { outOfService } from '../../journal/standing.ts';
import { analyzerInWords } from '../equipmentInWords.ts';
import { day } from '../parts/figures.ts';
import type { Weeks } from './analyzerSummary.ts';
import { chartsSection, seriesIn } from './chartsSection.ts';
import { checksSection } from './checksSection.ts';
import { controlsSection } from './controlsSection.ts';
import { eventsSection } from './eventsSection.ts';
import { failuresSection } from './failuresSection.ts';
import type { Part, ReportChoice } from './reportChoice.ts';
import { type Chapter, type Section, section } from './reportModel.ts';
import { endOf, type ReportSources } from './reportSources.ts';
import { runsSections } from './runsSection.ts';

export function analyzerChapter(
  analyzer: Analyzer,
  choice: ReportChoice,
  sources: ReportSources,
  weeks: Weeks,
): Chapter {
  const { id, description } = analyzer;
  const has = (part: Part) => !choice.without.includes(part);
  const found = seriesIn(id, choice, sources);
  return {
    id,
    title: description.label,
    sections: [
      ...descriptionSection(analyzer, choice, sources),
      ...runsSections(analyzer, found, choice, sources, weeks),
      ...(has('charts') ? chartsSection(found, choice) : []),
      ...(has('controls') ? controlsSection(analyzer, choice, { hasCharts: has('charts') }, sources) : []),
      ...(has('failures') ? failuresSection(id, choice, sources) : []),
      ...(has('checks') ? checksSection(id, choice, sources) : []),
      ...(has('events') ? eventsSection(id, choice, sources) : []),
    ],
  };
}

function descriptionSection(
  { id, description, history: [added], retired }: Analyzer,
  choice: ReportChoice,
  { logbook }: ReportSources,
): readonly Section[] {
  const out = outOfService(logbook, id, endOf(choice));
  return section('description', 'The analyzer', [
    {
      kind: 'facts',
      rows: [
        ...analyzerInWords(description, logbook.syringes),
        {
          name: 'In this logbook since',
          value: added === undefined ? 'not known' : day(added.at, added.zone),
        },
        ...(retired === null ? [] : [{ name: 'Retired', value: `${day(retired.at)}: ${retired.reason}` }]),
        ...(out === null
          ? []
          : [
              {
                name: 'At the end of the period',
                value: `out of service since ${day(out.from)}: ${out.reason}`,
              },
            ]),
      ],
    },
  ]);
}
