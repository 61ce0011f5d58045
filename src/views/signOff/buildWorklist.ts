/** The worklist of a sign-off: what is new since the one before, a page for each analyzer and one for the laboratory. Pure. */
import {
  type Assessments,
  addDays,
  type CivilDate,
  type WeeksWithoutRun,
  weeksWithoutRun,
} from '../../core/index.ts';
import type { Entry } from '../../journal/entries.ts';
import type { Analyzer, Logbook, LoggedRun } from '../../journal/logbook.ts';
import { outOfService } from '../../journal/standing.ts';
import { initialsIn } from '../amendments.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import type { Failure } from '../failures.ts';
import { counted, dayAndTime } from '../parts/figures.ts';
import type { Coverage } from '../signedOff.ts';
import { entrySentence } from './entrySentence.ts';
import { dayOfEntry, type NewEntries, newEntries, writtenAfter } from './newEntries.ts';
import { type OpenFailure, openingsOf, openOfControls, openOfRuns } from './openFailures.ts';
import { passSentence, type SeriesFigures, seriesFigures } from './periodFigures.ts';
import { analyzersOfEntries, type GroupId, groupOf, groupTitles } from './sortEntries.ts';

export interface Period {
  from: CivilDate;
  to: CivilDate;
}

export interface WorkLine {
  key: string;
  sentence: string;
  /** Who wrote it and when. */
  written: string;
}

/** Weeks on end without a run, and what was said of them. */
export interface ExplainedGap extends WeeksWithoutRun {
  reasons: readonly string[];
}

export interface WorkGroup {
  id: GroupId;
  title: string;
  lines: readonly WorkLine[];
}

/** What is new about one analyzer; of the laboratory where `analyzer` is null. */
export interface WorkPage {
  /** In the address of the page. */
  id: string;
  label: string;
  analyzer: Analyzer | null;
  /** How many of the listed entries it tells of. */
  count: number;
  /** Another as soon as anything is added to the page: what was looked through is not looked through any more. */
  stamp: string;
  runs: readonly LoggedRun[];
  passed: string;
  /** How its controls came out on their days; empty without any. */
  controls: string;
  series: readonly SeriesFigures[];
  gaps: readonly ExplainedGap[];
  openFailures: readonly OpenFailure[];
  /** Everything but the runs. */
  groups: readonly WorkGroup[];
}

export interface Worklist extends NewEntries {
  /** Of those listed, written before the period. */
  earlier: number;
  /** Nothing but sign-offs and the keys that they were made with. */
  isNothingNew: boolean;
  pages: readonly WorkPage[];
}

export const ofTheLaboratoryPage = 'laboratory';

export function buildWorklist(
  period: Period,
  {
    logbook,
    entries,
    coverage,
    assessments,
    failures,
    controlFailures,
  }: {
    logbook: Logbook;
    entries: readonly Entry[];
    coverage: Coverage;
    assessments: Assessments;
    failures: readonly Failure[];
    /** Of controls, open and ended. */
    controlFailures: readonly ControlFailure[];
  },
): Worklist {
  const found = newEntries(entries, coverage, period.to);
  const { listed } = found;
  const analyzersOf = analyzersOfEntries(logbook);
  const byPage = new Map<string, Entry[]>();
  for (const entry of listed) {
    const about = analyzersOf(entry);
    for (const id of about.length === 0 ? [ofTheLaboratoryPage] : about) {
      const there = byPage.get(id);
      if (there) there.push(entry);
      else byPage.set(id, [entry]);
    }
  }
  const line = (entry: Entry): WorkLine => ({
    key: entry.hash,
    sentence: entrySentence(entry, logbook),
    written: `${initialsIn(logbook.technologists, entry.by)}, ${dayAndTime(entry.at, entry.zone)}`,
  });
  const openings = openingsOf(failures, controlFailures, logbook);
  const page = (id: string, analyzer: Analyzer | null): WorkPage => {
    const own = byPage.get(id) ?? [];
    const ids = new Set(own.flatMap((entry) => (entry.kind === 'run-recorded' ? [entry.body.runId] : [])));
    const runs = logbook.runs.filter((run) => ids.has(run.id));
    const isOpenHere = ({ analyzerId, ended }: Pick<Failure, 'analyzerId'> & { ended: unknown }) =>
      analyzerId === id && ended === null;
    const openHere = [
      ...failures.filter(isOpenHere).map(openOfRuns),
      ...controlFailures.filter(isOpenHere).map((failure) => openOfControls(failure, logbook)),
    ];
    return {
      id,
      label: analyzer?.description.label ?? 'The laboratory',
      analyzer,
      count: own.length,
      stamp: `${id} ${own.length} ${own.at(-1)?.hash ?? ''} ${openHere.map(({ key }) => key).join(' ')}`,
      runs,
      passed: passSentence(runs, assessments),
      controls: controlsSentence(own),
      series: analyzer === null ? [] : seriesFigures(runs, assessments, analyzer.description.dlcoUnit),
      gaps: analyzer === null ? [] : gapsOf(analyzer, period, logbook),
      openFailures: openHere,
      groups: groupsOf(own, openings, line),
    };
  };
  const analyzers = [...logbook.analyzers.values()].filter(
    ({ id, retired }) => retired === null || byPage.has(id),
  );
  const laboratory = page(ofTheLaboratoryPage, null);
  return {
    ...found,
    earlier: listed.length - listed.filter(writtenAfter(addDays(period.from, -1))).length,
    isNothingNew: listed.every(({ kind }) => kind === 'period-signed' || kind === 'key-registered'),
    pages: [...analyzers.map((one) => page(one.id, one)), ...(laboratory.count > 0 ? [laboratory] : [])],
  };
}

function groupsOf(
  entries: readonly Entry[],
  openings: ReadonlyMap<string, readonly string[]>,
  line: (entry: Entry) => WorkLine,
): readonly WorkGroup[] {
  const lines = new Map<GroupId, WorkLine[]>();
  const add = (id: GroupId, one: WorkLine) => {
    const there = lines.get(id);
    if (there) there.push(one);
    else lines.set(id, [one]);
  };
  for (const entry of entries) {
    if (entry.kind !== 'run-recorded') add(groupOf[entry.kind], line(entry));
    for (const what of openings.get(entry.hash) ?? []) {
      const { key, written } = line(entry);
      add('failures', { key: `${key} ${what}`, sentence: `Opened: ${what}`, written });
    }
  }
  return (Object.keys(groupTitles) as GroupId[]).flatMap((id) => {
    const found = lines.get(id);
    return found ? [{ id, title: groupTitles[id], lines: found }] : [];
  });
}

/** `4 biological controls, 1 simulator session: 4 passed, 1 failed.` */
function controlsSentence(entries: readonly Entry[]): string {
  const recorded = entries.flatMap((entry) => (entry.kind === 'control-recorded' ? [entry.body] : []));
  if (recorded.length === 0) return '';
  const ofKind = (kind: 'biological' | 'simulator') =>
    recorded.filter(({ control }) => control.kind === kind).length;
  const cameOut = (word: 'pass' | 'warn' | 'fail') =>
    recorded.filter(({ judged }) => judged.word === word).length;
  const told = (parts: readonly [number, string][]) =>
    parts.flatMap(([count, words]) => (count === 0 ? [] : [words])).join(', ');
  const [people, sessions] = [ofKind('biological'), ofKind('simulator')];
  const [passed, warned, failed] = [cameOut('pass'), cameOut('warn'), cameOut('fail')];
  return `${told([
    [people, counted(people, 'biological control')],
    [sessions, counted(sessions, 'simulator session')],
  ])}: ${told([
    [passed, `${passed} passed`],
    [warned, `${warned} warned`],
    [failed, `${failed} failed`],
  ])}.`;
}

/** From when it was there, and until it was retired: a week in which nobody could run it is none without a run. */
function gapsOf(analyzer: Analyzer, { from, to }: Period, logbook: Logbook): readonly ExplainedGap[] {
  const made = logbook.runs
    .filter(({ body, voided }) => body.analyzerId === analyzer.id && voided === null)
    .map(({ body, entry }) => ({ at: body.madeAt, zone: entry.zone }));
  const [first] = made;
  const days = made.filter(writtenAfter(addDays(from, -1))).map(dayOfEntry);
  const [added] = analyzer.history;
  const addedOn = added === undefined ? from : dayOfEntry(added);
  const ranFrom = first === undefined ? addedOn : dayOfEntry(first);
  const retiredOn = analyzer.retired?.at.slice(0, 10) ?? to;
  const isOut = (monday: CivilDate, sunday: CivilDate) =>
    [`${monday}T12:00:00.000Z`, `${sunday}T12:00:00.000Z`].every(
      (instant) => outOfService(logbook, analyzer.id, instant) !== null,
    );
  const thereFrom = [ranFrom, addedOn].toSorted()[0] ?? from;
  const period = { from: thereFrom > from ? thereFrom : from, to: retiredOn < to ? retiredOn : to };
  const given = logbook.gaps.filter(
    ({ body }) => body.analyzerId === analyzer.id && body.check === 'simulation',
  );
  return weeksWithoutRun(days, period, isOut).map((gap) => ({
    ...gap,
    reasons: given
      .filter(({ body }) => body.from <= gap.to && body.to >= gap.from)
      .map(({ body, by }) => `${body.reason} (${initialsIn(logbook.technologists, by)})`),
  }));
}
