/** What one analyzer is in, why, and the one thing to do about it. */
import type { CivilDate } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import type { AnalyzerStanding } from '../attention.ts';
import type { Failure } from '../failures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { dayByNameAt } from '../scheduleWords.ts';
import type { RunStart } from '../startRun.ts';

export interface AnalyzerState {
  /** What is so, since or by when. */
  sentences: readonly string[];
  /** The one thing to do: a run; none while it is out of service, unless a failure is open, whose repeat may prove the repair. */
  start: { words: string; run: RunStart } | null;
  isOutOfService: boolean;
  /** The run that opened its failure. */
  failedRunId: string | null;
}

export function analyzerState(
  {
    analyzer: { id, description },
    failures,
    service,
    simulation,
  }: Pick<AnalyzerStanding<never>, 'analyzer' | 'failures' | 'service'> & {
    simulation: { sentence: string } | undefined;
  },
  today: CivilDate,
  zone: string,
): AnalyzerState {
  const isOutOfService = service !== null;
  const serviceSentences = service ? [outOfServiceSentence(service, today, zone)] : [];
  const [first] = failures;
  if (first) {
    const { openedBy, series } = first;
    const investigates = { runId: openedBy.id, check: 'repeat' as const };
    return {
      sentences: [failureSentence(failures, today), ...serviceSentences],
      start: {
        words: 'Repeat run',
        run: { analyzerId: id, route: series.route, reason: 'repeat', investigates },
      },
      isOutOfService,
      failedRunId: openedBy.id,
    };
  }
  if (isOutOfService) {
    return {
      sentences: serviceSentences,
      start: null,
      isOutOfService,
      failedRunId: null,
    };
  }
  return {
    sentences: [simulation?.sentence ?? 'Simulations are not scheduled here'],
    start: { words: `Run ${description.label}`, run: { analyzerId: id } },
    isOutOfService,
    failedRunId: null,
  };
}

function outOfServiceSentence(service: EntryBody<'service-set'>, today: CivilDate, zone: string): string {
  return `Out of service since ${dayByNameAt(Date.parse(service.from), zone, today)}: ${service.reason}`;
}

/** `Failure open: VA and DLCO, patient test, since Mon 16 Nov`. */
function failureSentence(failures: readonly Failure[], today: CivilDate): string {
  const routes = [...new Set(failures.map(({ series }) => series.route))];
  const parts = routes.map((route) => {
    const ofRoute = failures.filter(({ series }) => series.route === route);
    const named = [...new Set(ofRoute.map(({ series }) => quantityWords[series.quantity]))].join(' and ');
    const since = ofRoute
      .slice(0, 1)
      .map(({ openedBy }) => dayByNameAt(openedBy.simulation.at, openedBy.entry.zone, today));
    return `${named}, ${routeWords[route].toLowerCase()}, since ${since.join()}`;
  });
  return `Failure open: ${parts.join('; ')}`;
}
