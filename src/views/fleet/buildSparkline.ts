/** The last runs of one series as a small drawing, and the same in words. */
import type { Quantity } from '../../core/index.ts';
import { evaluationOf } from '../failures.ts';
import { counted, day, zOnChart } from '../parts/figures.ts';
import { wordOfQuantity } from '../seriesWord.ts';
import type { RecentRun } from './seriesInHand.ts';

export interface Sparkline {
  /** From run to run with a z, broken where a new baseline began. */
  line: string;
  points: readonly SparkPoint[];
  band: Rails;
  edges: Rails;
  middleY: number;
  description: string;
}

export interface SparkPoint {
  id: string;
  x: number;
  y: number;
  /** Of a run with a signal or a breached limit; a dot has none. */
  mark: 'fail' | 'warn' | null;
  /** Without own limits there is no z: such a run stands under the band. */
  hasZ: boolean;
}

interface Rails {
  top: number;
  bottom: number;
}

/** Units of the drawing. */
export const sparkWidth = 168;
export const sparkHeight = 40;
const sideRoom = 6;
const topRoom = 6;
/** Under the last 4 SD stand the runs that have no z. */
const plotBottom = 32;
const unjudgedY = 37;

/** A run further out stands at the edge: it is marked, and its z is in the table. */
const edgeSd = 4;

export function buildSparkline(recent: readonly RecentRun[], quantity: Quantity): Sparkline {
  const first = recent[0]?.run.simulation.at ?? 0;
  const span = (recent.at(-1)?.run.simulation.at ?? first) - first;
  const drawn = recent.map(({ run, assessment }) => {
    const { z } = evaluationOf(assessment, quantity);
    const word = wordOfQuantity(assessment, quantity);
    const along = span === 0 ? 1 : (run.simulation.at - first) / span;
    return {
      id: run.id,
      epoch: run.simulation.epoch,
      z,
      x: tenths(sideRoom + along * (sparkWidth - 2 * sideRoom)),
      y: z === null ? unjudgedY : yOf(z),
      mark: word === 'pass' ? null : word,
      hasZ: z !== null,
    };
  });
  return {
    line: lineThrough(drawn),
    points: drawn.map(({ id, x, y, mark, hasZ }) => ({ id, x, y, mark, hasZ })),
    band: { top: yOf(2), bottom: yOf(-2) },
    edges: { top: yOf(3), bottom: yOf(-3) },
    middleY: yOf(0),
    description: describe(recent, drawn),
  };
}

function yOf(z: number): number {
  const inside = Math.max(-edgeSd, Math.min(edgeSd, z));
  return tenths(topRoom + ((edgeSd - inside) / (2 * edgeSd)) * (plotBottom - topRoom));
}

const tenths = (value: number) => Math.round(value * 10) / 10;

function lineThrough(drawn: readonly { x: number; y: number; hasZ: boolean; epoch: number }[]): string {
  let pen: { epoch: number } | null = null;
  let path = '';
  for (const { x, y, hasZ, epoch } of drawn) {
    if (!hasZ) {
      pen = null;
      continue;
    }
    path += `${pen?.epoch === epoch ? 'L' : 'M'}${x} ${y}`;
    pen = { epoch };
  }
  return path;
}

function describe(
  recent: readonly RecentRun[],
  drawn: readonly { z: number | null; mark: 'fail' | 'warn' | null }[],
): string {
  const [oldest, newest] = [recent[0], recent.at(-1)];
  if (oldest === undefined || newest === undefined) return 'No runs.';
  const [from, to] = [day(oldest.run.simulation.at), day(newest.run.simulation.at)];
  const days = from === to ? `of ${from}` : `from ${from} to ${to}`;
  const z = drawn.flatMap((point) => (point.z === null ? [] : [point.z]));
  const without = drawn.length - z.length;
  const count = (mark: 'fail' | 'warn') => drawn.filter((point) => point.mark === mark).length;
  return [
    `${counted(recent.length, 'run')} ${days}`,
    z.length === 0 ? '' : `z between ${zOnChart(Math.min(...z))} and ${zOnChart(Math.max(...z))}`,
    without === 0 ? '' : `${without} without own limits`,
    count('fail') === 0 ? '' : `${count('fail')} failed`,
    count('warn') === 0 ? '' : `${count('warn')} with a warning`,
    count('fail') + count('warn') === 0 ? 'no signal' : '',
  ]
    .filter((part) => part !== '')
    .join(', ');
}
