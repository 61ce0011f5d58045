/** The volume calibration checks of one analyzer: how far each flow read from what was expected, over time. */
import type { LoggedCheck } from '../../journal/logbook.ts';
import { counted, day, dayAndTime, litresAsTyped, plain, signedPercent } from '../parts/figures.ts';
import { valueAxis } from '../parts/valueAxis.ts';
import { volumeOf } from './chartedChecks.ts';
import { percentWords, railsAt, timeAxis } from './deviationAxes.ts';
import type { Mark, MarkChartModel, Shape } from './markChartModel.ts';

/** In the order of the strokes; a fourth and later reading is one more. */
const flows: readonly { shape: Shape; name: string }[] = [
  { shape: 'triangle', name: 'slow' },
  { shape: 'circle', name: 'middle' },
  { shape: 'square', name: 'fast' },
];
const further: { shape: Shape; name: string } = { shape: 'diamond', name: 'further' };

/** Three flows are told by their order where nobody wrote the flow itself; with fewer readings the order says nothing. */
function flowOf(check: LoggedCheck, index: number): { shape: Shape; name: string } {
  const volume = check.entry.body.volume;
  const known = (volume?.readL.length ?? 0) >= flows.length ? flows[index] : undefined;
  return known ?? further;
}

function flowWords(check: LoggedCheck, index: number): string {
  const flow = check.entry.body.volume?.flowLPerS?.[index];
  const { name } = flowOf(check, index);
  const word = name === further.name ? `reading ${index + 1}` : name;
  return flow === undefined ? word : `${word}, ${plain(flow)} L/s`;
}

/** The columns of the table: as many as the check with the most readings has. */
export function readingNames(checks: readonly LoggedCheck[]): string[] {
  const most = checks.reduce((count, { entry }) => Math.max(count, entry.body.volume?.readL.length ?? 0), 0);
  return Array.from({ length: most }, (_, index) => {
    const name = most >= flows.length ? flows[index]?.name : undefined;
    return name === undefined ? `Reading ${index + 1}` : `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
  });
}

/** Of the checks that stand, oldest first; null while none of them has readings. */
export function buildVolumeChart(checks: readonly LoggedCheck[], label: string): MarkChartModel | null {
  const marks = checks.flatMap(marksOf);
  const [first, last] = [marks[0], marks.at(-1)];
  if (first === undefined || last === undefined) return null;
  const limit =
    (checks.findLast(({ entry }) => entry.body.volume !== null)?.entry.body.volume?.limitFraction ?? 0) * 100;
  const y = valueAxis([0, limit, -limit, ...marks.map((mark) => mark.y)], 0.1);
  const used = [...flows, further].filter(({ shape }) => marks.some((mark) => mark.shape === shape));
  const outside = marks.filter(({ isOut }) => isOut).length;
  return {
    title: 'Deviation from what should be read, at each flow',
    description: `${counted(marks.length, 'reading')} of ${counted(checks.length, 'check')} of ${label} from ${day(first.x)} to ${day(last.x)}; ${
      outside === 0 ? 'none' : outside
    } outside ±${percentWords(limit)} %. Last: ${last.told} The table has the same numbers.`,
    x: timeAxis(first.x, last.x),
    y,
    yTicks: new Map(y.ticks.map((tick) => [tick, tickText(tick)])),
    yTitle: '% of what should be read',
    rails: railsAt(limit),
    lines: used.map(({ shape, name }) => ({
      key: name,
      points: marks.filter((mark) => mark.shape === shape).map((mark) => ({ x: mark.x, y: mark.y })),
    })),
    marks,
    shapes: used,
  };
}

const tickText = (tick: number) => signedPercent(tick / 100);

function marksOf(check: LoggedCheck): Mark[] {
  const { volume, doneAt } = check.entry.body;
  return (volumeOf(check)?.readings ?? []).map(({ readL, deviationFraction, within }, index) => ({
    key: `${check.id} ${index}`,
    x: Date.parse(doneAt),
    y: deviationFraction * 100,
    shape: flowOf(check, index).shape,
    isOut: !within,
    label: `${signedPercent(deviationFraction)} %`,
    told: `${dayAndTime(doneAt, check.entry.zone)}, ${flowWords(check, index)}: ${litresAsTyped(readL)} L of ${litresAsTyped(
      volume?.expectedL ?? 0,
    )} L, ${signedPercent(deviationFraction)} %${within ? '' : ', outside'}.`,
  }));
}
