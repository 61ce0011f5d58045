/** A sheet as the text of an SVG file: nothing in it points outside. */
import type { ChartSheet, PathShape, Shape, TextShape } from './chartSheet.ts';

export function sheetAsSvg({ width, height, paper, shapes, description }: ChartSheet): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="system-ui, sans-serif" role="img">`,
    `<desc>${escaped(description)}</desc>`,
    `<rect width="${width}" height="${height}" fill="${escaped(paper)}"/>`,
    ...shapes.map(elementOf),
    '</svg>',
    '',
  ].join('\n');
}

const elementOf = (shape: Shape) => (shape.kind === 'path' ? pathElement(shape) : textElement(shape));

function pathElement({ d, matrix, fill, stroke, strokeWidth, dash }: PathShape): string {
  const dashes = dash.length === 0 ? '' : ` stroke-dasharray="${dash.map(short).join(' ')}"`;
  const line =
    stroke === 'none' ? '' : ` stroke="${escaped(stroke)}" stroke-width="${short(strokeWidth)}"${dashes}`;
  return `<path d="${escaped(d)}" transform="matrix(${matrix.map(short).join(' ')})" fill="${escaped(fill)}"${line}/>`;
}

function textElement({ text, x, y, anchor, size, weight, fill, halo }: TextShape): string {
  const rim =
    halo === null
      ? ''
      : ` paint-order="stroke" stroke="${escaped(halo.stroke)}" stroke-width="${short(halo.width)}"`;
  return `<text x="${short(x)}" y="${short(y)}" text-anchor="${anchor}" font-size="${short(size)}" font-weight="${escaped(weight)}" fill="${escaped(fill)}"${rim}>${escaped(text)}</text>`;
}

const short = (value: number) => String(Math.round(value * 100) / 100);

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** For an attribute or a text. Control characters, which XML cannot hold, are left out. */
const escaped = (text: string) =>
  text.replace(/[&<>"]/g, (letter) => entities[letter] ?? letter).replace(/\p{Cc}/gu, ' ');
