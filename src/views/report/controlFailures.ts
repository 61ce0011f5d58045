/** The failures of an analyzer's controls that were open in a period. Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import type { Analyzer, LoggedControl } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { controlSeriesName } from '../charting/controlHeading.ts';
import type { ControlFailure } from '../controlAssessments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { asSentence } from '../parts/asSentence.ts';
import { counted, day, dayAndTime } from '../parts/figures.ts';
import { endInShort, endRows, wasOpenIn } from './failureEnds.ts';
import type { Block } from './reportModel.ts';
import type { Period, ReportSources } from './reportSources.ts';

export function controlFailureBlocks(analyzerId: string, period: Period, sources: ReportSources): Block[] {
  return controlFailuresOf(analyzerId, period, sources).flatMap((failure) => story(failure, sources));
}

function controlFailuresOf(
  analyzerId: string,
  period: Period,
  { controlFailures }: Pick<ReportSources, 'controlFailures'>,
): readonly ControlFailure[] {
  const wasOpen = wasOpenIn(period);
  return controlFailures.filter(
    ({ analyzerId: of, openedBy, ended }) => of === analyzerId && wasOpen(openedBy.control.madeAt, ended),
  );
}

/** For the cover, whose table counts simulations alone: an open failure of controls is not to be looked for. */
export function controlFailuresInShort(
  analyzers: readonly Pick<Analyzer, 'id'>[],
  period: Period,
  sources: Pick<ReportSources, 'controlFailures'>,
): string {
  const failures = analyzers.flatMap(({ id }) => controlFailuresOf(id, period, sources));
  if (failures.length === 0)
    return 'No failure of biological controls or the simulator was open in this period.';
  const open = failures.filter(({ ended }) => ended === null).length;
  return `${counted(failures.length, 'failure')} of biological controls or the simulator besides, ${open === 0 ? 'none' : open} still open.`;
}

function story(failure: ControlFailure, sources: ReportSources): Block[] {
  const { openedBy, series, controls, ended } = failure;
  const { logbook } = sources;
  const { madeAt, technologistId } = openedBy.control;
  return [
    {
      kind: 'heading',
      text: `Failure: ${controlSeriesName(series, logbook)}, opened ${day(madeAt, openedBy.entry.zone)}, ${endInShort(ended)}`,
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
        ...endRows(ended, sources, closureSaid),
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

function closureSaid({ body: { cause, correctiveAction, lookBack } }: EntryOf<'control-closed'>) {
  return {
    rows: [
      { name: 'Cause', value: cause },
      { name: 'Corrective action', value: correctiveAction },
      { name: 'Patient look-back', value: lookBack === '' ? '' : asSentence(lookBack) },
    ],
    reason: '',
  };
}
