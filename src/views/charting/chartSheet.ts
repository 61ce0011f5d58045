/** A chart as a picture that stands by itself: what was drawn, what it shows, of whom, when, and the head of the journal. */

/** A drawn thing in pixels of the sheet's drawing. Colours are those of the screen it was taken from. */
export type Shape = PathShape | TextShape;

export interface PathShape {
  kind: 'path';
  /** In its own coordinates, which the matrix leads to those of the drawing. */
  d: string;
  matrix: Matrix;
  fill: string;
  stroke: string;
  strokeWidth: number;
  dash: readonly number[];
}

export interface TextShape {
  kind: 'text';
  text: string;
  x: number;
  y: number;
  anchor: 'start' | 'middle' | 'end';
  size: number;
  weight: string;
  fill: string;
  /** The rim that keeps a line behind it from crossing out a letter; null where there is none. */
  halo: { stroke: string; width: number } | null;
}

export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export interface ChartSheet {
  width: number;
  height: number;
  paper: string;
  shapes: readonly Shape[];
  /** The picture in words. */
  description: string;
}

export interface SheetWords {
  title: string;
  lines: readonly string[];
  foot: readonly string[];
}

export interface Drawing {
  width: number;
  height: number;
  paper: string;
  ink: string;
  shapes: readonly Shape[];
}

const margin = 24;
const titleSize = 20;
const lineSize = 13;
const lineStep = 19;
/** Of the average letter in sans serif, as a share of its size: errs towards too wide. */
const letterWidth = 0.6;

/** Puts the words above and below the drawing. */
export function chartSheet(drawing: Drawing, { title, lines, foot }: SheetWords): ChartSheet {
  const width = drawing.width + 2 * margin;
  const lettersInALine = Math.floor(drawing.width / (lineSize * letterWidth));
  const shapes: Shape[] = [];
  const write = (text: string, y: number, size: number, weight: string) =>
    shapes.push({
      kind: 'text',
      text,
      x: margin,
      y,
      anchor: 'start',
      size,
      weight,
      fill: drawing.ink,
      halo: null,
    });
  let y = margin + titleSize;
  write(title, y, titleSize, '600');
  for (const line of lines.flatMap((text) => broken(text, lettersInALine))) {
    y += lineStep;
    write(line, y, lineSize, '400');
  }
  y += lineStep;
  shapes.push(...drawing.shapes.map((shape) => shifted(shape, margin, y)));
  y += drawing.height;
  for (const line of foot.flatMap((text) => broken(text, lettersInALine))) {
    y += lineStep;
    write(line, y, lineSize, '400');
  }
  return {
    width,
    height: Math.ceil(y + margin),
    paper: drawing.paper,
    shapes,
    description: [title, ...lines, ...foot].join(' '),
  };
}

function shifted(shape: Shape, x: number, y: number): Shape {
  if (shape.kind === 'text') return { ...shape, x: shape.x + x, y: shape.y + y };
  const [a, b, c, d, e, f] = shape.matrix;
  return { ...shape, matrix: [a, b, c, d, e + x, f + y] };
}

/** Lines of so many letters at most, broken between words; a word that is longer, such as a hash, is cut. */
export function broken(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    for (let start = 0; start === 0 || start < word.length; start += most) {
      const part = word.slice(start, start + most);
      const last = lines.at(-1);
      if (start === 0 && last !== undefined && last.length + 1 + part.length <= most) {
        lines[lines.length - 1] = `${last} ${part}`;
      } else lines.push(part);
    }
  }
  return lines;
}
