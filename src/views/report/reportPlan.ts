/** A report piece by piece, each made when it is asked for: a long period must not hold up a key that is pressed meanwhile. Pure. */
import { analyzerChapter } from './analyzerChapter.ts';
import { weeksOf } from './analyzerSummary.ts';
import { coverChapter } from './coverChapter.ts';
import { laboratoryChapter } from './laboratoryChapter.ts';
import type { ReportChoice } from './reportChoice.ts';
import type { Chapter } from './reportModel.ts';
import { analyzersOf, type ReportSources } from './reportSources.ts';

/** To be made in this order; null where it only works out what the cover sums up. */
export type ReportPlan = readonly (() => Chapter | null)[];

export function reportPlan(choice: ReportChoice, sources: ReportSources): ReportPlan {
  const analyzers = analyzersOf(choice, sources.logbook);
  const weeks = weeksOf(choice, sources);
  return [
    ...analyzers.map((analyzer) => () => {
      weeks(analyzer);
      return null;
    }),
    () => coverChapter(analyzers, choice, sources, weeks),
    ...analyzers.map((analyzer) => () => analyzerChapter(analyzer, choice, sources, weeks)),
    () => laboratoryChapter(analyzers, choice, sources),
  ];
}
