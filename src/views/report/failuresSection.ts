/** The failures of an analyzer that were open in a period, each with its story from opening to closure. Pure. */
import type { EntryOf } from '../../journal/entries.ts';
import { initialsIn } from '../amendments.ts';
import { closingOf } from '../closing.ts';
import { closingWindow } from '../closingWindow.ts';
import { type Failure, opensFailure } from '../failures.ts';
import { weighInquiry } from '../investigationChecks.ts';
import { inquiryInto } from '../investigations.ts';
import { asSentence } from '../parts/asSentence.ts';
import { counted, day, dayAndTime } from '../parts/figures.ts';
import { findingSentence, quantityWords, routeWords } from '../parts/words.ts';
import { onsetSentences, outcomeWords } from '../windowWords.ts';
import { endInShort, endRows, type Row, wasOpenIn } from './failureEnds.ts';
import { type Block, type Section, section, words } from './reportModel.ts';
import type { Period, ReportSources } from './reportSources.ts';

export function failuresOf(
  analyzerId: string,
  period: Period,
  failures: readonly Failure[],
): readonly Failure[] {
  const wasOpen = wasOpenIn(period);
  return failures.filter(
    (failure) => failure.analyzerId === analyzerId && wasOpen(failure.openedBy.body.madeAt, failure.ended),
  );
}

export function failuresSection(
  analyzerId: string,
  period: Period,
  sources: ReportSources,
): readonly Section[] {
  const found = failuresOf(analyzerId, period, sources.failures);
  return section(
    'failures',
    'Failures of simulations',
    found.length === 0
      ? [words('No failure was open in this period.')]
      : found.flatMap((failure) => story(failure, sources)),
  );
}

function story(failure: Failure, sources: ReportSources): Block[] {
  const { quantity, route } = failure.series;
  const { openedBy } = failure;
  const opened = day(openedBy.body.madeAt, openedBy.entry.zone);
  return [
    {
      kind: 'heading',
      text: `${quantityWords[quantity]}, ${routeWords[route].toLowerCase()}: opened ${opened}, ${endInShort(failure.ended)}`,
    },
    { kind: 'facts', rows: rowsOf(failure, sources).filter(({ value }) => value !== '') },
  ];
}

function rowsOf(failure: Failure, sources: ReportSources): Row[] {
  const { logbook, assessments, failures, now } = sources;
  const { openedBy, series, runs } = failure;
  const { technologists } = logbook;
  const closing = closingOf(failure, { logbook, assessments });
  const findings = (assessments.get(openedBy.id)?.verdict.findings ?? []).filter(
    (finding) => opensFailure(finding) && finding.quantity === series.quantity,
  );
  const inquiry = inquiryInto(logbook, failures, openedBy.id);
  const causes = inquiry
    ? weighInquiry(inquiry, { logbook, assessments, now: new Date(now).toISOString() }).ranking.causes
    : [];
  return [
    {
      name: 'Opened by',
      value: `the run of ${dayAndTime(openedBy.body.madeAt, openedBy.entry.zone)}, by ${initialsIn(technologists, openedBy.body.technologistId)}. ${findings.map(findingSentence).join(' ')}`,
    },
    {
      name: 'When it began',
      value: onsetSentences(closingWindow(failure, { logbook, assessments, now })).join(' '),
    },
    {
      name: 'What it may be',
      value: causes
        .slice(0, likelyCauses)
        .map(({ text }) => asSentence(text))
        .join(' '),
    },
    { name: 'Made while open', value: `${counted(runs.length, 'run')}, the one that opened it among them.` },
    {
      name: 'What was done',
      value:
        closing.actions.map((action) => actionSentence(action, technologists)).join(' ') ||
        'Nothing is written down.',
    },
    {
      name: 'Patient look-back',
      value:
        closing.lookBacks.map((review) => reviewSentence(review, technologists)).join(' ') ||
        'No review is written down.',
    },
    ...endRows(failure.ended, sources, (closure) => closureSaid(closure, logbook)),
  ];
}

/** As many as stand on the page of a failure. */
const likelyCauses = 3;

type People = ReportSources['logbook']['technologists'];

function actionSentence({ body, zone }: EntryOf<'action-taken'>, people: People): string {
  const by =
    body.technologistId === null ? 'by somebody else' : `by ${initialsIn(people, body.technologistId)}`;
  const part = body.part === '' ? '' : `, part ${body.part}`;
  return `${dayAndTime(body.doneAt, zone)}, ${by}${part}: ${asSentence(body.what)}`;
}

function reviewSentence({ body, zone }: EntryOf<'look-back-reviewed'>, people: People): string {
  const tested = body.testedCount === null ? '' : `, ${counted(body.testedCount, 'patient')} tested`;
  const affected = body.affectedCount === null ? '' : `, ${body.affectedCount} affected`;
  const note = body.note === '' ? '' : ` ${asSentence(body.note)}`;
  return `${dayAndTime(body.from, zone)} to ${dayAndTime(body.to, zone)}: ${outcomeWords[body.outcome].toLowerCase()}${tested}${affected}, reviewed by ${initialsIn(people, body.reviewerId)}.${note}`;
}

function closureSaid({ body }: EntryOf<'failure-closed'>, { runs }: Pick<ReportSources['logbook'], 'runs'>) {
  const { cause, correctiveAction, reason, proofRunIds } = body;
  const proof = runs.filter(({ id }) => proofRunIds?.includes(id));
  const made = proof.map((run) => dayAndTime(run.body.madeAt, run.entry.zone)).join('; ');
  return {
    rows: [
      { name: 'Cause', value: cause ?? '' },
      { name: 'Corrective action', value: correctiveAction },
      { name: 'Proven by', value: proof.length === 0 ? '' : `${counted(proof.length, 'run')}: ${made}.` },
    ],
    reason,
  };
}
