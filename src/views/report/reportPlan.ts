/** A report chapter by chapter, each made when it is asked for: a long period must not hold up a key that is pressed meanwhile. Pure. */
import { analyzerChapter } from './analyzerChapter.ts';
import { coverChapter } from './coverChapter.ts';
import { laboratoryChapter } from './laboratoryChapter.ts';
import type { ReportChoice } from './reportChoice.ts';
import type { Chapter } from './reportModel.ts';
import { analyzersOf, type ReportSources } from './reportSources.ts';

export type ReportPlan = readonly (() => Chapter)[];

export function reportPlan(choice: ReportChoice, sources: ReportSources): ReportPlan {
  const analyzers = analyzersOf(choice, sources.logbook);
  return [
    () => coverChapter(analyzers, choice, sources),
    ...analyzers.map((analyzer) => () => analyzerChapter(analyzer, choice, sources)),
    () => laboratoryChapter(analyzers, choice, sources),
  ];
}
