/** What happened to an analyzer in a period, and which of its runs and controls were put right afterwards. Pure. */
import type { Entry } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { asSentence } from '../parts/asSentence.ts';
import { dayAndTime } from '../parts/figures.ts';
import { eventWords } from '../parts/words.ts';
import { type Block, type Column, type Section, section, words } from './reportModel.ts';
import { controlsIn, isIn, type Period, type ReportSources, runsIn } from './reportSources.ts';

interface Happening {
  at: string;
  what: string;
  description: string;
  entry: Pick<Entry, 'zone' | 'by'>;
}

const columns: readonly Column[] = [
  { head: 'When', width: 21 },
  { head: 'What', width: 22 },
  { head: 'In words' },
  { head: 'By', width: 7 },
];

export function eventsSection(
  analyzerId: string,
  period: Period,
  sources: ReportSources,
): readonly Section[] {
  const happenings = happeningsOf(analyzerId, period, sources);
  const corrections = correctionsOf(analyzerId, period, sources);
  const blocks: Block[] = [];
  if (happenings.length === 0) blocks.push(words('Nothing was written down of this analyzer.'));
  else blocks.push(tableOf('happenings', 'What happened to the analyzer', happenings, sources));
  if (corrections.length > 0) {
    blocks.push(
      tableOf(
        'corrections',
        'Runs and controls that were put right, struck or set aside',
        corrections,
        sources,
      ),
    );
  }
  return section('events', 'Events and corrections', blocks);
}

const tableOf = (
  key: string,
  caption: string,
  happenings: readonly Happening[],
  { logbook }: ReportSources,
): Block => ({
  kind: 'table',
  id: key,
  caption,
  columns,
  rows: happenings
    .toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at))
    .map(({ at, what, description, entry }) => [
      dayAndTime(at, entry.zone),
      what,
      asSentence(description),
      initialsIn(logbook.technologists, entry.by),
    ]),
});

function happeningsOf(analyzerId: string, period: Period, { logbook }: ReportSources): Happening[] {
  const inPeriod = isIn(period);
  const labelOf = (cylinderId: string) => logbook.cylinders.get(cylinderId)?.description.label ?? 'unknown';
  const all: Happening[] = [
    ...logbook.events
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({
        at: entry.body.happenedAt,
        what: eventWords[entry.body.type],
        description: entry.body.description,
        entry,
      })),
    ...logbook.services
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({
        at: entry.body.from,
        what: entry.body.inService ? 'Back in service' : 'Out of service',
        description: entry.body.reason,
        entry,
      })),
    ...logbook.fittings
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({
        at: entry.body.fittedAt,
        what: entry.body.cylinderId === null ? 'Cylinder taken off' : 'Cylinder fitted',
        description: entry.body.cylinderId === null ? 'None is fitted.' : labelOf(entry.body.cylinderId),
        entry,
      })),
    ...logbook.baselineStarts
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({ at: entry.body.from, what: 'New baseline', description: entry.body.reason, entry })),
    ...logbook.policies
      .filter(({ body }) => body.analyzerId === analyzerId)
      .map((entry) => ({ at: entry.body.from, what: 'Policy set', description: entry.body.reason, entry })),
  ];
  return all.filter(({ at, entry }) => inPeriod(at, entry.zone));
}

function correctionsOf(analyzerId: string, period: Period, { logbook }: ReportSources): Happening[] {
  return [
    ...runsIn(logbook, analyzerId, period).flatMap((run) => correctionsOfOne('run', run.body.madeAt, run)),
    ...controlsIn(logbook, analyzerId, period).flatMap((logged) =>
      correctionsOfOne(controlWords[logged.control.kind], logged.control.madeAt, logged),
    ),
  ];
}

const controlWords = { biological: 'test of a person', simulator: 'simulator session' } as const;

interface Correctable {
  entry: Pick<Entry, 'zone'>;
  amendments: readonly (Pick<Entry, 'at' | 'zone' | 'by'> & { body: { reason: string } })[];
  voided: LoggedRun['voided'];
  setAside: LoggedRun['setAside'];
}

function correctionsOfOne(
  word: string,
  madeAt: string,
  { entry, amendments, voided, setAside }: Correctable,
): Happening[] {
  const of = `${word} of ${dayAndTime(madeAt, entry.zone)}`;
  const stopped = (found: LoggedRun['voided'], what: string): Happening[] =>
    found === null
      ? []
      : [
          {
            at: found.at,
            what,
            description: `The ${of}: ${found.reason}`,
            entry: { zone: entry.zone, by: found.by },
          },
        ];
  return [
    ...amendments.map((amendment) => ({
      at: amendment.at,
      what: 'Amended',
      description: `The ${of}: ${amendment.body.reason}`,
      entry: amendment,
    })),
    ...stopped(voided, 'Voided'),
    ...stopped(setAside, 'Set aside'),
  ];
}
