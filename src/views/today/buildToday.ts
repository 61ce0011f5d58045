/** Today: one line for each analyzer in use, the one that wants somebody first at the top, and what the laboratory shares. */
import { type CivilDate, civilDateOf, daysBetween } from '../../core/index.ts';
import type { ScheduledCheck } from '../../journal/entries.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { byAnalyzer, inOrderOfAttention } from '../attention.ts';
import { builtInOnly } from '../builtInOnly.ts';
import type { Failure } from '../failures.ts';
import { type LineState, lineStates, rank, stateOf, stateWords, wantsSomebody } from '../lineStates.ts';
import { type DueCheck, dueChecks } from '../schedule.ts';
import { checkWords, dayByName, dayByNameAt, daysAhead, dueSentence, nameOfThing } from '../scheduleWords.ts';
import { type AnalyzerState, analyzerState } from './analyzerState.ts';
import { type ControlFailureLine, controlFailureLines } from './controlFailureLines.ts';

export interface TodayLine extends AnalyzerState {
  /** That of its simulation, or what stands before it. */
  state: LineState;
  analyzerId: string;
  name: string;
  place: string;
  /** The newest that stands; null while there is none. */
  lastRun: LoggedRun | null;
  /** The digit key that starts its run. */
  digit: number | null;
  /** Four weeks of the built-in routine alone. */
  lacksPatientTest: boolean;
  /** Open failures of its controls. */
  controlFailures: readonly ControlFailureLine[];
  /** Its other checks that want somebody. */
  others: readonly CheckLine[];
}

export interface CheckLine {
  due: DueCheck;
  /** Of what it is about. */
  name: string;
  state: LineState;
  sentence: string;
}

export interface TodayPage {
  today: CivilDate;
  /** What is wanted, counted; where nothing is, when something will be. */
  summary: string;
  lines: readonly TodayLine[];
  /** Syringes, the barometer and cylinders that are fitted nowhere; the most urgent first. */
  ofTheLaboratory: readonly CheckLine[];
  /** Every check of an analyzer, its simulation first. */
  ofAnalyzer: (analyzerId: string) => readonly CheckLine[];
  /** Usual checks of which none was ever noted, each with the number of things it could be made on. */
  neverNoted: readonly { check: ScheduledCheck; count: number }[];
  /** What is dated after today. */
  datedAhead: readonly string[];
}

const mostDigits = 9;

export function buildToday(
  logbook: Logbook,
  openFailures: readonly Failure[],
  now: number,
  zone: string,
): TodayPage {
  const today = civilDateOf(now, zone);
  const instant = new Date(now).toISOString();
  const all = dueChecks(logbook, now, zone).map((due) => ({
    due,
    name: nameOfThing(due.about, logbook),
    state: stateOf(due),
    sentence: dueSentence(due, today, zone),
  }));
  const ofAnalyzer = byAnalyzer(all);
  const runs = newestRuns(logbook);
  const withoutPatientTest = new Set(builtInOnly(logbook, now, zone).map(({ analyzerId }) => analyzerId));
  const lines = inOrderOfAttention(logbook, openFailures, ofAnalyzer, instant).map((standing) => {
    const { analyzer, state, others } = standing;
    const { label: name, place } = analyzer.description;
    return {
      ...analyzerState(standing, today, zone),
      state,
      analyzerId: analyzer.id,
      name,
      place,
      others,
      controlFailures: controlFailureLines(standing.controlFailures, logbook, today),
      lastRun: runs.get(analyzer.id) ?? null,
      lacksPatientTest: withoutPatientTest.has(analyzer.id),
    };
  });
  const ofTheLaboratory = all
    .filter(({ due: { about } }) => about.kind !== 'analyzer' && about.fittedTo.length === 0)
    .sort((one, other) => rank(one) - rank(other));
  const numbered = withDigits(lines);
  return {
    today,
    summary: summaryOf(numbered, ofTheLaboratory.filter(wantsSomebody), nextDue(all, today), today),
    lines: numbered,
    ofTheLaboratory,
    ofAnalyzer,
    neverNoted: countNeverNoted(all),
    datedAhead: all.flatMap((line) => aheadSentences(line, today)),
  };
}

function withDigits(lines: readonly Omit<TodayLine, 'digit'>[]): readonly TodayLine[] {
  let last = 0;
  return lines.map((line) => {
    const hasDigit = line.start !== null && last < mostDigits;
    if (hasDigit) last += 1;
    return { ...line, digit: hasDigit ? last : null };
  });
}

/** Runs come in the order of their moment. */
function newestRuns({ runs }: Logbook): ReadonlyMap<string, LoggedRun> {
  const newest = new Map<string, LoggedRun>();
  for (const run of runs) {
    if (run.voided === null) newest.set(run.body.analyzerId, run);
  }
  return newest;
}

function countNeverNoted(all: readonly CheckLine[]): TodayPage['neverNoted'] {
  const counts = new Map<ScheduledCheck, number>();
  for (const { due, state } of all) {
    if (state === 'never') counts.set(due.check, (counts.get(due.check) ?? 0) + 1);
  }
  return [...counts].map(([check, count]) => ({ check, count }));
}

function aheadSentences({ name, due: { check, datedAhead } }: CheckLine, today: CivilDate): string[] {
  if (datedAhead === null) return [];
  return [
    `${name}, ${dayByNameAt(datedAhead.at, datedAhead.zone, today)}: ${checkWords[check].toLowerCase()}`,
  ];
}

function nextDue(all: readonly CheckLine[], today: CivilDate): CivilDate | undefined {
  return all
    .flatMap(({ due, state }) => (state === 'never' || due.due.dueOn === null ? [] : [due.due.dueOn]))
    .filter((dueOn) => dueOn > today)
    .sort()[0];
}

/** `Analyzers: 1 failing, 2 overdue. Other checks: 1 due today.` */
function summaryOf(
  lines: readonly TodayLine[],
  ofTheLaboratory: readonly CheckLine[],
  next: CivilDate | undefined,
  today: CivilDate,
): string {
  const analyzers = countStates(lines);
  const ofControls = lines.flatMap(({ controlFailures }) =>
    controlFailures.map(() => ({ state: 'failing' as const })),
  );
  const others = countStates([...lines.flatMap((line) => line.others), ...ofControls, ...ofTheLaboratory]);
  if (others !== '')
    return `${analyzers ? `Analyzers: ${analyzers}` : 'No run is due'}. Other checks: ${others}.`;
  if (analyzers !== '') return `Analyzers: ${analyzers}.`;
  return next === undefined
    ? 'Nothing is due today.'
    : `Nothing is due today. Next ${daysAhead(daysBetween(today, next))}, ${dayByName(next, today)}.`;
}

function countStates(lines: readonly { state: LineState }[]): string {
  return lineStates
    .filter((state) => state === 'out-of-service' || (state !== 'soon' && wantsSomebody({ state })))
    .map((state) => ({ state, count: lines.filter((line) => line.state === state).length }))
    .filter(({ count }) => count > 0)
    .map(({ state, count }) => `${count} ${stateWords[state].toLowerCase()}`)
    .join(', ');
}
