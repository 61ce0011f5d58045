/** The left page: each analyzer with its controls and its checks with figures, how each came out last and when it is due. */
import { civilDateOf } from '../../core/index.ts';
import type { ScheduledCheck } from '../../journal/entries.ts';
import type { Analyzer, Logbook } from '../../journal/logbook.ts';
import { levelWords } from '../charting/controlHeading.ts';
import { controlsOfSeries, listControlSeries, type SeriesControl } from '../charting/controlSeries.ts';
import { isCounted } from '../charting/seriesItem.ts';
import { type ControlAssessments, type ControlFailure, controlSeriesKey } from '../controlAssessments.ts';
import { newControlHref } from '../deskRoutes.ts';
import { gasFormulas } from '../gasNames.ts';
import { type LineState, stateOf, wantsSomebody } from '../lineStates.ts';
import { day, percent, signedPercent, zOnChart } from '../parts/figures.ts';
import type { MarkShape } from '../parts/verdictMark.tsx';
import { quantityWords, verdictWords } from '../parts/words.ts';
import { checkHref } from '../routes.ts';
import { dueChecks } from '../schedule.ts';
import { checkWords, dueSentence } from '../scheduleWords.ts';
import { subjectStanding } from '../subjectStanding.ts';
import { checksOf, linearityOf, markOfCheck, volumeOf } from './chartedChecks.ts';
import { type Asked, hrefOf } from './controlsAddress.ts';

export interface ControlLine {
  asked: Asked;
  path: string;
  /** The person's code, or what is checked. */
  name: string;
  mark: MarkShape | null;
  markWord: string;
  /** How it came out last: `DLCO z +0.3, VA z −0.2`. */
  figures: string;
  /** `last 3 Mar 2026` */
  since: string;
  /** Of a person who is not tested now; else empty. */
  standing: string;
  failureOpen: boolean;
}

export const listedKinds = ['biological-control', 'simulator', 'volume-check', 'linearity'] as const;
export type ListedKind = (typeof listedKinds)[number];

export interface KindLines {
  kind: ListedKind;
  name: string;
  /** When it is due, without its name; empty where nothing says so. */
  due: string;
  state: LineState | null;
  /** Where one more is written down. */
  begin: { href: string; label: string };
  lines: readonly ControlLine[];
}

export interface AnalyzerControls {
  analyzerId: string;
  label: string;
  retired: boolean;
  kinds: readonly KindLines[];
}

interface Sources {
  logbook: Logbook;
  assessments: ControlAssessments;
  failures: readonly ControlFailure[];
  now: number;
  /** IANA, as on the wall. */
  zone: string;
}

export const beginning: Record<ListedKind, (analyzerId: string) => { href: string; label: string }> = {
  'biological-control': (id) => ({
    href: newControlHref('biological', id),
    label: 'Enter a biological control',
  }),
  simulator: (id) => ({ href: newControlHref('simulator', id), label: 'Enter a simulator session' }),
  'volume-check': (id) => ({
    href: checkHref('volume-check', id),
    label: 'Note a volume calibration check',
  }),
  linearity: (id) => ({ href: checkHref('linearity', id), label: 'Note a linearity check' }),
};

/** Analyzers in use first. One that is retired stands here for the controls that it has. */
export function buildControlList(sources: Sources): AnalyzerControls[] {
  const { logbook, now, zone } = sources;
  const due = dueChecks(logbook, now, zone);
  const today = civilDateOf(now, zone);
  const series = seriesLines(sources);
  const all = [...logbook.analyzers.values()].map((analyzer): AnalyzerControls => {
    const retired = analyzer.retired !== null;
    const kinds = listedKinds.flatMap((kind): KindLines[] => {
      const lines = linesOf(kind, analyzer, series, logbook);
      const check = due.find((one) => one.check === kind && one.about.id === analyzer.id);
      if (lines.length === 0 && check === undefined) return [];
      return [
        {
          kind,
          name: checkWords[kind],
          due: check ? withoutName(dueSentence(check, today, zone), kind) : '',
          state: check ? stateOf(check) : null,
          begin: beginning[kind](analyzer.id),
          lines,
        },
      ];
    });
    return { analyzerId: analyzer.id, label: analyzer.description.label, retired, kinds };
  });
  const shown = all.filter(({ kinds }) => kinds.length > 0);
  return [...shown.filter(({ retired }) => !retired), ...shown.filter(({ retired }) => retired)];
}

const withoutName = (sentence: string, check: ScheduledCheck) =>
  sentence.startsWith(checkWords[check]) ? sentence.slice(checkWords[check].length).trim() : sentence;

function linesOf(
  kind: ListedKind,
  { id }: Analyzer,
  series: readonly { kind: ListedKind; analyzerId: string; line: ControlLine }[],
  logbook: Logbook,
): ControlLine[] {
  if (kind === 'volume-check') return volumeLine(logbook, id);
  if (kind === 'linearity') return linearityLine(logbook, id);
  return series.filter((one) => one.kind === kind && one.analyzerId === id).map(({ line }) => line);
}

/** A person's two quantities share a line, as do the two levels of a simulator: they are made together. */
function seriesLines(sources: Sources) {
  const { logbook, assessments, failures } = sources;
  const open = new Set(
    failures
      .filter(({ ended }) => ended === null)
      .map(({ analyzerId, series }) => controlSeriesKey(analyzerId, series)),
  );
  const groups = new Map<string, Part[]>();
  for (const named of listControlSeries(logbook, assessments)) {
    const { analyzerId, series } = named;
    const { items } = controlsOfSeries(logbook, assessments, named);
    const key =
      series.kind === 'biological' ? `${analyzerId} ${series.subjectId}` : `${analyzerId} simulator`;
    const part = {
      asked: { kind: 'series' as const, ...named },
      word: series.kind === 'biological' ? quantityWords[series.quantity] : levelWords[series.level],
      last: items.filter(isCounted).at(-1),
      failureOpen: open.has(controlSeriesKey(analyzerId, series)),
    };
    const known = groups.get(key);
    if (known) known.push(part);
    else groups.set(key, [part]);
  }
  return [...groups.values()].flatMap((parts) => {
    const [first] = parts;
    return first === undefined ? [] : [lineOf(first, parts, sources)];
  });
}

interface Part {
  asked: Extract<Asked, { kind: 'series' }>;
  word: string;
  last: SeriesControl | undefined;
  failureOpen: boolean;
}

function lineOf(first: Part, parts: readonly Part[], { logbook, now }: Sources) {
  const { analyzerId, series } = first.asked;
  const isBiological = series.kind === 'biological';
  const standing = isBiological
    ? subjectStanding(logbook, series.subjectId, new Date(now).toISOString())
    : null;
  const worst = parts.reduce((one, other) => (urgencyOf(other) < urgencyOf(one) ? other : one));
  const last = parts.reduce((newest, part) => Math.max(newest, part.last?.at ?? 0), 0);
  const line: ControlLine = {
    asked: worst.asked,
    path: hrefOf(worst.asked),
    name: standing?.code ?? 'Both levels',
    ...markOf(parts),
    figures: parts.flatMap(({ word, last: newest }) => zWords(word, newest)).join(', '),
    since: last === 0 ? '' : `last ${day(last)}`,
    standing: standing?.words ?? '',
    failureOpen: parts.some(({ failureOpen }) => failureOpen),
  };
  return {
    kind: isBiological ? ('biological-control' as const) : ('simulator' as const),
    analyzerId,
    line: isBiological || parts.length > 1 ? line : { ...line, name: first.word },
  };
}

const zWords = (word: string, last: SeriesControl | undefined) =>
  last === undefined || last.evaluation.z === null ? [] : [`${word} z ${zOnChart(last.evaluation.z)}`];

/** The heaviest of what came out last: of two series made together one may fail alone. */
function markOf(parts: readonly Part[]): Pick<ControlLine, 'mark' | 'markWord'> {
  const lasts = parts.flatMap(({ last }) => last ?? []);
  const word = (['fail', 'warn', 'pass'] as const).find((one) => lasts.some((last) => last.word === one));
  if (word === undefined) return { mark: null, markWord: 'All voided' };
  const establishing = word === 'pass' && lasts.some(({ evaluation }) => evaluation.z === null);
  return establishing
    ? { mark: 'establishing', markWord: 'No own baseline yet' }
    : { mark: word, markWord: verdictWords[word] };
}

/** Of two series made together the one to look at first. */
function urgencyOf({ last, failureOpen }: Part): number {
  if (last?.word === 'fail') return 0;
  return failureOpen ? 1 : last?.word === 'warn' ? 2 : 3;
}

const outcomeMarks = { pass: 'Passed', fail: 'Failed' } as const;

function volumeLine(logbook: Logbook, analyzerId: string): ControlLine[] {
  const last = checksOf(logbook, analyzerId, 'volume-check').at(-1);
  if (last === undefined) return [];
  const worst = volumeOf(last)?.worstFraction ?? null;
  const figures = worst === null ? '' : `farthest ${signedPercent(worst)} %`;
  return [checkLine({ kind: 'volume-check', analyzerId }, { last, name: 'Three flows', figures })];
}

function linearityLine(logbook: Logbook, analyzerId: string): ControlLine[] {
  const last = checksOf(logbook, analyzerId, 'linearity').at(-1);
  if (last === undefined) return [];
  const gases = linearityOf(last);
  const figures = gases
    .map(({ gas, judged }) => `${gasFormulas[gas]} ${percent(Math.abs(judged.worstFraction), 2)} %`)
    .join(', ');
  return [
    checkLine(
      { kind: 'linearity', analyzerId },
      { last, name: 'Gases', figures: figures === '' ? '' : `${figures} of full scale` },
    ),
  ];
}

function checkLine(
  asked: Asked,
  { last, name, figures }: { last: Parameters<typeof markOfCheck>[0]; name: string; figures: string },
): ControlLine {
  const mark = markOfCheck(last);
  return {
    asked,
    path: hrefOf(asked),
    name,
    mark,
    markWord: mark === null ? 'Noted' : outcomeMarks[mark],
    figures,
    since: `last ${day(last.entry.body.doneAt)}`,
    standing: '',
    failureOpen: false,
  };
}

/** Whether a line's page is what the address asks for: a person's VA stands on the line of the person. */
export function isShownBy({ asked: one }: ControlLine, asked: Asked | null): boolean {
  if (asked === null || one.analyzerId !== asked.analyzerId || one.kind !== asked.kind) return false;
  if (one.kind !== 'series' || asked.kind !== 'series') return true;
  const [series, other] = [one.series, asked.series];
  if (series.kind === 'simulator') return other.kind === 'simulator';
  return other.kind === 'biological' && series.subjectId === other.subjectId;
}

/**
 * What is shown when the address names nothing: the first with a failure, then the first with a warning, then the first kind that
 * is due, then one of the analyzer in hand, then the first.
 */
export function firstToLookAt(groups: readonly AnalyzerControls[], inHand = ''): ControlLine | undefined {
  const inUse = groups.filter(({ retired }) => !retired);
  const lines = inUse.flatMap(({ kinds }) => kinds.flatMap((kind) => kind.lines));
  const due = inUse
    .flatMap(({ kinds }) => kinds)
    .find(({ state, lines: ofKind }) => state !== null && ofKind.length > 0 && wantsSomebody({ state }));
  return (
    lines.find(({ failureOpen }) => failureOpen) ??
    lines.find(({ mark }) => mark === 'fail') ??
    lines.find(({ mark }) => mark === 'warn') ??
    due?.lines[0] ??
    lines.find(({ asked }) => asked.analyzerId === inHand) ??
    lines[0] ??
    groups[0]?.kinds[0]?.lines[0]
  );
}
