/** What one analyzer is in, why, and the one thing to do about it. */
import type { CivilDate } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import type { Failure } from '../failures.ts';
import { quantityWords, routeWords } from '../parts/words.ts';
import { dayByNameAt } from '../scheduleWords.ts';
import type { RunStart } from '../startRun.ts';
import type { LineState } from './lineStates.ts';

export interface AnalyzerState {
  /** That of its simulation, or what stands before it. */
  state: LineState;
  /** What is so, since or by when. */
  sentences: readonly string[];
  /** The one thing to do: a run, or none while it is out of service. */
  start: { words: string; run: RunStart } | null;
  isOutOfService: boolean;
  /** The run that opened its failure. */
  failedRunId: string | null;
}

/** A failure stands before all else, though the analyzer may be out of service for it; that before what is due. */
export function analyzerState(
  { id, description }: Pick<Analyzer, 'id' | 'description'>,
  {
    failures,
    service,
    simulation,
    today,
    zone,
  }: {
    /** Open ones of this analyzer, in the order in which they opened. */
    failures: readonly Failure[];
    /** Null while it is in service. */
    service: EntryBody<'service-set'> | null;
    /** Undefined where simulations are not scheduled. */
    simulation: { state: LineState; sentence: string } | undefined;
    today: CivilDate;
    zone: string;
  },
): AnalyzerState {
  const isOutOfService = service !== null;
  const serviceSentences = service ? [outOfServiceSentence(service, today, zone)] : [];
  const [first] = failures;
  if (first) {
    const { openedBy, series } = first;
    const investigates = { runId: openedBy.id, check: 'repeat' as const };
    return {
      state: 'failing',
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
      state: 'out-of-service',
      sentences: serviceSentences,
      start: null,
      isOutOfService,
      failedRunId: null,
    };
  }
  return {
    state: simulation?.state ?? 'later',
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
