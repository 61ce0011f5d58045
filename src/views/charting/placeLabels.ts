/** Finds room for words on a chart, in pixels: a word moves aside, and gives way when there is no room at all. */

export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export interface LabelWish {
  key: string;
  x: number;
  y: number;
  text: string;
  side: 'above' | 'below';
}

export interface PlacedLabel {
  key: string;
  text: string;
  /** Middle of the word, and its baseline. */
  x: number;
  y: number;
  /** From the point to a word that could not stand next to it. */
  leader: { fromY: number; toY: number; x: number } | null;
}

/** Of the 13 px sans: a little more than the average letter, so that an estimate errs towards too wide. */
const letterWidth = 7.5;
export const lineHeight = 15;
const ascent = 11;
/** From the middle of a mark to its word. */
const nextTo = 9;

export const pennantWidth = 9;

export const estimatedWidth = (text: string) => text.length * letterWidth + 4;

export const overlaps = (one: Box, other: Box) =>
  one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;

/** Places words near their points in the order given: the wished side first, then further out, then the other side. */
export function placeLabels(
  wishes: readonly LabelWish[],
  within: Box,
  obstacles: readonly Box[] = [],
): PlacedLabel[] {
  const taken: Box[] = [...obstacles];
  return wishes.flatMap(({ key, x, y, text, side }) => {
    const half = estimatedWidth(text) / 2;
    const middle = Math.min(Math.max(x, within.left + half), within.right - half);
    const wished = side === 'above' ? -1 : 1;
    for (const direction of [wished, -wished]) {
      for (const linesOff of [0, 1, 2]) {
        const distance = nextTo + linesOff * lineHeight;
        const top = direction < 0 ? y - distance - lineHeight : y + distance;
        const box = { left: middle - half, right: middle + half, top, bottom: top + lineHeight };
        if (box.top < within.top || box.bottom > within.bottom) continue;
        if (taken.some((other) => overlaps(box, other))) continue;
        taken.push(box);
        const leader =
          linesOff === 0
            ? null
            : { x, fromY: y + direction * nextTo, toY: direction < 0 ? box.bottom : box.top };
        return [{ key, text, x: middle, y: top + ascent, leader }];
      }
    }
    return [];
  });
}

/** Places words that stand to the right of their marks in rows; one that fits in no row is left out. */
export function placeInRows(
  wishes: readonly { key: string; x: number; text: string }[],
  { rows, right }: { rows: number; right: number },
): { key: string; text: string; x: number; row: number }[] {
  const reached = new Array<number>(rows).fill(Number.NEGATIVE_INFINITY);
  return wishes.flatMap(({ key, x, text }) => {
    const width = estimatedWidth(text);
    const start = Math.min(x, right - width);
    const row = reached.findIndex((end) => end <= start);
    if (row < 0) return [];
    reached[row] = start + width;
    return [{ key, text, x: start, row }];
  });
}

export interface PlacedFlag {
  key: string;
  x: number;
  /** How many rows down the flag hangs. */
  row: number;
  /** Empty where the word found no room. */
  text: string;
}

/**
 * Flags with their words to the right of them, from the last to the first: a pole that reaches a lower row then
 * crosses no word, since the words above it begin further right.
 */
export function placeFlags(
  wishes: readonly { key: string; x: number; text: string }[],
  { rows, right }: { rows: number; right: number },
): PlacedFlag[] {
  const free = new Array<number>(rows).fill(right);
  const lastFirst = [...wishes].sort((one, other) => other.x - one.x);
  return lastFirst.map(({ key, x, text }) => {
    const end = x + estimatedWidth(text) + pennantWidth;
    const found = free.findIndex((limit) => end <= limit);
    const row = Math.max(found, 0);
    for (let above = 0; above <= row; above += 1) free[above] = Math.min(free[above] ?? x, x);
    return { key, x, row, text: found < 0 ? '' : text };
  });
}

/** Moves names of lines apart, down first, until each has its height; the order of the lines stays. */
export function spreadApart<T extends { y: number }>(
  names: readonly T[],
  { height, top, bottom }: { height: number; top: number; bottom: number },
): T[] {
  const spread = [...names].sort((one, other) => one.y - other.y).map((name) => ({ ...name }));
  let floor = top + height / 2;
  for (const name of spread) {
    name.y = Math.max(name.y, floor);
    floor = name.y + height;
  }
  let ceiling = bottom - height / 2;
  for (const name of spread.reverse()) {
    name.y = Math.min(name.y, ceiling);
    ceiling = name.y - height;
  }
  return spread.reverse();
}
