/** The failures of an analyzer's controls that were open in a period. Pure. */
import type { Logbook, LoggedControl } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { controlSeriesName } from '../charting/controlHeading.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { asSentence } from '../parts/asSentence.ts';
import { counted, day, dayAndTime } from '../parts/figures.ts';
import { signatureSentence } from '../parts/signatureSentence.ts';
import type { Block } from './reportModel.ts';
import { endOf, type Period, type ReportSources } from './reportSources.ts';

/** When it ended; null while it is open. */
const endedAt = ({ ended }: ControlFailure): string | null =>
  ended === null ? null : ended.by === 'closure' ? ended.closure.body.closedAt : ended.from;

export function controlFailureBlocks(analyzerId: string, period: Period, sources: ReportSources): Block[] {
  const end = endOf(period);
  return sources.controlFailures
    .filter((failure) => {
      const ended = endedAt(failure);
      return (
        failure.analyzerId === analyzerId &&
        failure.openedBy.control.madeAt < end &&
        (ended === null || ended.slice(0, 10) >= period.from)
      );
    })
    .flatMap((failure) => story(failure, sources));
}

function story(failure: ControlFailure, sources: ReportSources): Block[] {
  const { openedBy, series, controls, ended } = failure;
  const { logbook } = sources;
  const { madeAt, technologistId } = openedBy.control;
  const when =
    ended === null
      ? 'still open'
      : ended.by === 'closure'
        ? `closed ${day(ended.closure.body.closedAt, ended.closure.zone)}`
        : `put aside by a new baseline ${day(ended.from)}`;
  return [
    {
      kind: 'heading',
      text: `Failure: ${controlSeriesName(series, logbook)}, opened ${day(madeAt, openedBy.entry.zone)}, ${when}`,
    },
    {
      kind: 'facts',
      rows: [
        {
          name: 'Opened by',
          value: `the control of ${dayAndTime(madeAt, openedBy.entry.zone)}, by ${initialsIn(logbook.technologists, technologistId)}: ${firedWords(openedBy, failure)}.`,
        },
        {
          name: 'Made while open',
          value: `${counted(controls.length, 'control')}, the one that opened it among them.`,
        },
        ...endRows(failure, sources),
      ].filter(({ value }) => value !== ''),
    },
  ];
}

/** As its entry has it, of the series that failed. */
function firedWords(openedBy: LoggedControl, { series }: ControlFailure): string {
  const name = series.kind === 'biological' ? series.quantity : series.level;
  const found = judgedAsWritten(openedBy).series.find((one) => one.name === name);
  const parts = [
    ...(found?.withinPublished === false ? ['beyond the published limit'] : []),
    ...(found?.signals ?? []).map(
      ({ rule, across }) => `${rule}${across === 'levels' ? ' between the two levels' : ''}`,
    ),
  ];
  return parts.join(', ') || 'judged otherwise on its day than today';
}

function endRows({ ended }: ControlFailure, { logbook, signatures }: ReportSources) {
  if (ended === null) return [{ name: 'Closed', value: 'Not yet.' }];
  if (ended.by === 'new-baseline') {
    return [{ name: 'Closed', value: 'Nobody closed it in writing: a new baseline started without it.' }];
  }
  const { closure } = ended;
  const { cause, correctiveAction, lookBack, closedAt } = closure.body;
  const check = signatures?.find(({ entry }) => entry.hash === closure.hash);
  return [
    { name: 'Cause', value: cause },
    { name: 'Corrective action', value: correctiveAction },
    { name: 'Patient look-back', value: lookBack === '' ? '' : asSentence(lookBack) },
    { name: 'Closed', value: `${dayAndTime(closedAt, closure.zone)}, by ${nameOf(closure.by, logbook)}.` },
    { name: 'Signature', value: check === undefined ? 'Being verified.' : signatureSentence(check, logbook) },
  ];
}

function nameOf(id: string, { technologists }: Pick<Logbook, 'technologists'>): string {
  const person = technologists.get(id);
  return person === undefined ? 'somebody unknown' : `${person.initials}, ${person.name}`;
}
