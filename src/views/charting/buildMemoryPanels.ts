/** EWMA and CUSUM below the chart: what the rules remember of what came before, and how far that may go. */
import {
  type ControlPolicy,
  ewmaLimit,
  type PolicyStep,
  policyAt,
  type RuleId,
  severityOf,
} from '../../core/index.ts';
import { zInTable } from '../parts/figures.ts';
import { type ValueAxis, valueAxis } from '../parts/valueAxis.ts';
import type { Span } from './chartWindow.ts';
import { cutLine, cutSpans, type LinePoint } from './cutToWindow.ts';
import { isCounted, type SeriesItem } from './seriesItem.ts';
import { thinPoints } from './thinPoints.ts';

export interface MemoryLine {
  key: 'ewma' | 'cusumHigh' | 'cusumLow';
  /** One for each epoch. */
  stretches: readonly (readonly LinePoint[])[];
}

export interface MemoryPanel {
  key: 'EWMA' | 'CUSUM';
  title: string;
  from: number;
  to: number;
  axis: ValueAxis;
  valueTicks: ReadonlyMap<number, string>;
  lines: readonly MemoryLine[];
  /** As the policy of each day has it; nothing where it switches the rule off. */
  limits: readonly { from: number; to: number; level: number }[];
  /** What stands beside the limit at the right end. */
  limitText: string;
  signals: readonly { id: string; at: number; value: number; mark: 'warn' | 'fail' }[];
  /** Where it stands at the last one shown, and what it may reach. */
  words: string;
}

interface Kind {
  key: MemoryPanel['key'];
  title: string;
  lines: readonly MemoryLine['key'][];
  limitOf: (policy: ControlPolicy) => number;
}

/** A sum of deviations downwards is drawn downwards. */
const levelOf = {
  ewma: ({ ewma }: SeriesItem['evaluation']) => ewma,
  cusumHigh: ({ cusumHigh }: SeriesItem['evaluation']) => cusumHigh,
  cusumLow: ({ cusumLow }: SeriesItem['evaluation']) => (cusumLow === null ? null : 0 - cusumLow),
};

const kinds: readonly Kind[] = [
  { key: 'EWMA', title: 'EWMA of z', lines: ['ewma'], limitOf: ({ ewma }) => ewmaLimit(ewma) },
  {
    key: 'CUSUM',
    title: 'CUSUM of z, upwards and downwards',
    lines: ['cusumHigh', 'cusumLow'],
    limitOf: ({ cusum }) => cusum.decision,
  },
];

/** A series and by what it is judged. */
interface MemorySource {
  /** In time order. */
  items: readonly SeriesItem[];
  /** What they are called, in the singular: `run`, `test`. */
  noun: string;
  policySteps: readonly PolicyStep[];
}

/** None while nothing has been judged by own limits. */
export function buildMemoryPanels({ items, noun, policySteps }: MemorySource, span: Span): MemoryPanel[] {
  const judged = items.filter((item) => isCounted(item) && item.evaluation.ewma !== null);
  return judged.length === 0 ? [] : kinds.map((kind) => panelOf(kind, judged, { noun, policySteps }, span));
}

function panelOf(
  { key, title, lines: lineKeys, limitOf }: Kind,
  judged: readonly SeriesItem[],
  { noun, policySteps }: Omit<MemorySource, 'items'>,
  { from, to }: Span,
): MemoryPanel {
  const span = { from, to };
  const limits = cutSpans(limitSpans(key, limitOf, judged, policySteps, to), span);
  const lines = lineKeys.map((line) => ({ key: line, stretches: stretchesOf(line, key, judged, span) }));
  const levels = lines.flatMap(({ stretches }) => stretches.flat().map(({ value }) => value));
  const axis = valueAxis([0, ...levels, ...limits.flatMap(({ level }) => [level, -level])], 0.1);
  const shown = judged.filter(({ at }) => at >= from && at <= to);
  return {
    key,
    title,
    from,
    to,
    axis,
    valueTicks: new Map(axis.ticks.map((tick) => [tick, tickText(tick, axis.step)])),
    lines,
    limits,
    limitText: `limit ${unsigned(limits.at(-1)?.level ?? 0)}`,
    signals: shown.flatMap((item) => signalOf(item, key, lineKeys)),
    words: wordsOf(key, shown.at(-1), { noun, policySteps }),
  };
}

const unsigned = (value: number) => zInTable(value).replace('+', '');

const tickText = (tick: number, step: number) =>
  step < 0.1 ? zInTable(tick) : zInTable(tick).replace(/[.,]?0+$/, '');

function limitSpans(
  rule: RuleId,
  limitOf: Kind['limitOf'],
  judged: readonly SeriesItem[],
  policySteps: readonly PolicyStep[],
  end: number,
): { from: number; to: number; level: number }[] {
  const spans: { from: number; to: number; level: number }[] = [];
  for (const [index, { at }] of judged.entries()) {
    const policy = policyAt(policySteps, at);
    if (severityOf(rule, policy) === 'off') continue;
    const level = limitOf(policy);
    const until = judged[index + 1]?.at ?? end;
    const last = spans.at(-1);
    if (last && last.to === at && last.level === level) last.to = until;
    else spans.push({ from: at, to: until, level });
  }
  return spans;
}

function stretchesOf(
  line: MemoryLine['key'],
  rule: RuleId,
  judged: readonly SeriesItem[],
  span: Span,
): LinePoint[][] {
  const epochs = new Map<number, { at: number; drawnAt: number; keep: boolean }[]>();
  for (const { epoch, at, evaluation } of judged) {
    const level = levelOf[line](evaluation);
    if (level === null) continue;
    const points = epochs.get(epoch) ?? [];
    points.push({ at, drawnAt: level, keep: evaluation.signals.some((signal) => signal.rule === rule) });
    epochs.set(epoch, points);
  }
  return [...epochs.values()]
    .map((points) => {
      const joined = thinPoints(points, []).map(({ at, drawnAt }) => ({ at, value: drawnAt }));
      return cutLine(joined, span);
    })
    .filter(({ length }) => length > 0);
}

function signalOf(
  { id, at, evaluation }: SeriesItem,
  rule: RuleId,
  lines: readonly MemoryLine['key'][],
): MemoryPanel['signals'][number][] {
  const signal = evaluation.signals.find((each) => each.rule === rule);
  if (signal === undefined) return [];
  const value = lines
    .map((line) => levelOf[line](evaluation) ?? 0)
    .reduce((furthest, level) => (Math.abs(level) > Math.abs(furthest) ? level : furthest), 0);
  return [{ id, at, value, mark: signal.severity === 'action' ? 'fail' : 'warn' }];
}

function wordsOf(
  key: MemoryPanel['key'],
  last: SeriesItem | undefined,
  { noun, policySteps }: Omit<MemorySource, 'items'>,
): string {
  if (last === undefined) return `${key}: no judged ${noun} in this part.`;
  const { ewma, cusumHigh, cusumLow } = last.evaluation;
  const policy = policyAt(policySteps, last.at);
  const stand =
    key === 'EWMA'
      ? `EWMA ${zInTable(ewma ?? 0)}`
      : `CUSUM ${unsigned(cusumHigh ?? 0)} up and ${unsigned(cusumLow ?? 0)} down`;
  if (severityOf(key, policy) === 'off') return `${stand}. The policy in force does not judge by it.`;
  const { limitOf } = kinds.find((kind) => kind.key === key) ?? { limitOf: () => Number.NaN };
  const hasFired = last.evaluation.signals.some(({ rule }) => rule === key);
  return `${stand}, ${hasFired ? 'beyond' : 'within'} its limit of ${unsigned(limitOf(policy))}.`;
}
