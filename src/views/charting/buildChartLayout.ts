/** Where the words and marks of a chart go, in pixels, once the library has said how wide the paper is. */
import type { Scale } from './chartPaths.ts';
import type { ControlChartModel, LineName } from './controlChartModel.ts';
import {
  type Box,
  estimatedWidth,
  type LabelWish,
  lineHeight,
  overlaps,
  type PlacedFlag,
  type PlacedLabel,
  placeFlags,
  placeInRows,
  placeLabels,
  spreadApart,
} from './placeLabels.ts';

/** The plot without its axes, in pixels. */
export interface PlotArea {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface Word {
  key: string;
  text: string;
  x: number;
  y: number;
}

export interface ChartLayout {
  ruleLabels: readonly PlacedLabel[];
  lineNames: readonly (LineName & { y: number })[];
  flags: readonly PlacedFlag[];
  failureBars: readonly { key: string; x: number; width: number }[];
  failureWords: readonly Word[];
  epochWords: readonly Word[];
  /** Published rails beyond the axis; these words end at x. */
  outsideWords: readonly Word[];
}

/** Height of a flag's pole in the first row, and how much further down each other row hangs. */
export const flagPole = { first: 14, row: 15 };
/** Of the names' margin, what the last flag's word may use. */
const roomAtTheRight = 70;
export const failureBarHeight = 5;
/** A failure closed within the hour is still to be seen. */
const thinnestBar = 3;
/** More words than this would cover the dots; each one's own are told where it is pointed at. */
const mostLabels = 150;
/** Two lines of small type for a name and its value. */
const nameHeight = 29;
const epochWord = 'new baseline';

export function buildChartLayout(model: ControlChartModel, plot: PlotArea, x: Scale, y: Scale): ChartLayout {
  const right = plot.x + plot.width;
  const bottom = plot.y + plot.height;
  const epochWords = placeInRows(
    model.epochs.map(({ id, at }) => ({ key: id, x: x(at) + 4, text: epochWord })),
    { rows: 2, right },
  ).map(({ row, ...word }) => ({ ...word, y: plot.y + 12 + row * 15 }));
  const failureWords = placeInRows(
    model.failures.map(({ id, from, word }) => ({ key: id, x: Math.max(x(from), plot.x), text: word })),
    { rows: 1, right },
  ).map(({ row: _row, ...word }) => ({ ...word, y: bottom - failureBarHeight - 5 }));
  const standing = [...epochWords, ...failureWords].map(boxOf);
  // A mark may not be covered; that a word stands over a plain dot is seen through its rim.
  const marks = model.points
    .filter(({ mark }) => mark !== null)
    .map(({ at, drawnAt }) => around(x(at), y(drawnAt), reachOfMark));
  const outsideWords = model.outside.map(({ side, text }): Word => {
    const word = {
      key: side,
      text: `${side === 'above' ? '↑' : '↓'} ${text}`,
      x: right,
      y: side === 'above' ? plot.y - 8 : bottom - failureBarHeight - 5,
    };
    const raised = { ...word, y: word.y - lineHeight };
    const atTheLeft = { ...word, x: plot.x + estimatedWidth(word.text) + 4 };
    const isFree = (place: Word) =>
      ![...standing, ...marks].some((box) => overlaps(box, boxOf(endingAt(place))));
    return [word, raised, atTheLeft].find(isFree) ?? raised;
  });
  const wordBoxes = [...standing, ...outsideWords.map(endingAt).map(boxOf)];
  return {
    epochWords,
    failureBars: model.failures.map(({ id, from, to }) => ({
      key: id,
      x: x(from),
      width: Math.max(x(to) - x(from), thinnestBar),
    })),
    failureWords,
    outsideWords,
    ruleLabels: ruleLabels(model, plot, x, y, wordBoxes),
    lineNames: spreadApart(
      model.names.map((name) => ({ ...name, y: y(name.value) })),
      { height: nameHeight, top: plot.y - 14, bottom: bottom + 14 },
    ),
    flags: placeFlags(
      model.events.map(({ id, at, word }) => ({ key: id, x: x(at), text: word })),
      { rows: 2, right: right + roomAtTheRight },
    ),
  };
}

const endingAt = (word: Word): Word => ({ ...word, x: word.x - estimatedWidth(word.text) });

const boxOf = ({ text, x: left, y: baseline }: Word): Box => ({
  left,
  right: left + estimatedWidth(text),
  top: baseline - 12,
  bottom: baseline + 3,
});

/** Half the side of the square that a dot keeps free around it, and a mark. */
const reachOfDot = 4;
const reachOfMark = 8;

const around = (x: number, y: number, reach: number): Box => ({
  left: x - reach,
  right: x + reach,
  top: y - reach,
  bottom: y + reach,
});

/** Failures first, so that a warning gives way to them; every other dot keeps its place free. */
function ruleLabels(
  { points }: ControlChartModel,
  plot: PlotArea,
  x: Scale,
  y: Scale,
  wordBoxes: readonly Box[],
): PlacedLabel[] {
  const dots = points.map(({ at, drawnAt, mark }) => {
    return around(x(at), y(drawnAt), mark === null ? reachOfDot : reachOfMark);
  });
  const wishes = points.flatMap(
    ({ id, at, drawnAt, mark, label, labelSide }): (LabelWish & { mark: string })[] =>
      label === null || mark === null
        ? []
        : [{ key: id, x: x(at), y: y(drawnAt), text: label, side: labelSide, mark }],
  );
  const within = {
    left: plot.x,
    right: plot.x + plot.width,
    top: plot.y,
    bottom: plot.y + plot.height - failureBarHeight,
  };
  const failuresFirst = [
    ...wishes.filter(({ mark }) => mark === 'fail'),
    ...wishes.filter(({ mark }) => mark !== 'fail'),
  ];
  return placeLabels(failuresFirst.slice(0, mostLabels), within, [...wordBoxes, ...dots]);
}
