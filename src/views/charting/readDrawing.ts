/** What stands drawn on the screen, as shapes with the colours that the style sheets gave them. */
import type { Drawing, Matrix, Shape } from './chartSheet.ts';

/** What comes and goes with the pointer is no part of the picture. */
const passing = '.recharts-active-dot, .recharts-tooltip-cursor, .control-chart__cursor, defs, clipPath';

export function readDrawing(container: HTMLElement): Drawing {
  const place = container.getBoundingClientRect();
  const { backgroundColor, color } = getComputedStyle(document.body);
  const elements = container.querySelectorAll<SVGGraphicsElement>('path, rect, circle, line, text');
  return {
    width: Math.ceil(place.width),
    height: Math.ceil(place.height),
    paper: backgroundColor,
    ink: color,
    shapes: [...elements].flatMap((element) =>
      element.closest(passing) === null ? shapesOf(element, place) : [],
    ),
  };
}

function shapesOf(element: SVGGraphicsElement, place: DOMRect): Shape[] {
  const style = getComputedStyle(element);
  const toScreen = element.getScreenCTM();
  if (toScreen === null || style.visibility === 'hidden' || style.display === 'none') return [];
  const { a, b, c, d, e, f } = toScreen;
  const matrix: Matrix = [a, b, c, d, e - place.left, f - place.top];
  if (element instanceof SVGTextElement) return textsOf(element, matrix);
  const outline = outlineOf(element);
  if (outline === '' || (style.fill === 'none' && style.stroke === 'none')) return [];
  return [
    {
      kind: 'path',
      d: outline,
      matrix,
      fill: style.fill,
      stroke: style.stroke,
      strokeWidth: Number.parseFloat(style.strokeWidth),
      dash: lengthsOf(style.strokeDasharray),
    },
  ];
}

function lengthsOf(dashes: string): number[] {
  return dashes === 'none' ? [] : dashes.split(/[\s,]+/).map(Number.parseFloat);
}

/** Every piece by itself: a text may hold several, each in a place of its own. */
function textsOf(text: SVGTextElement, [a, b, c, d, e, f]: Matrix): Shape[] {
  const pieces = text.children.length === 0 ? [text] : [...text.querySelectorAll('tspan')];
  return pieces.flatMap((piece): Shape[] => {
    const letters = piece.getNumberOfChars();
    const written = piece.textContent;
    if (letters === 0 || written === null || written.trim() === '') return [];
    const style = getComputedStyle(piece);
    const start = piece.getStartPositionOfChar(0);
    const end = piece.getEndPositionOfChar(letters - 1);
    const anchor = style.textAnchor === 'middle' || style.textAnchor === 'end' ? style.textAnchor : 'start';
    const at = { start: start.x, middle: (start.x + end.x) / 2, end: end.x }[anchor];
    const hasRim = style.paintOrder.startsWith('stroke') && style.stroke !== 'none';
    return [
      {
        kind: 'text',
        text: written,
        x: a * at + c * start.y + e,
        y: b * at + d * start.y + f,
        anchor,
        size: Number.parseFloat(style.fontSize),
        weight: style.fontWeight,
        fill: style.fill,
        halo: hasRim ? { stroke: style.stroke, width: Number.parseFloat(style.strokeWidth) } : null,
      },
    ];
  });
}

function outlineOf(element: SVGGraphicsElement): string {
  const number = (name: string) => Number.parseFloat(element.getAttribute(name) ?? '0');
  switch (element.tagName) {
    case 'path':
      return element.getAttribute('d') ?? '';
    case 'line':
      return `M${number('x1')} ${number('y1')}L${number('x2')} ${number('y2')}`;
    case 'rect':
      return `M${number('x')} ${number('y')}h${number('width')}v${number('height')}h${-number('width')}Z`;
    case 'circle': {
      const [middleX, middleY, radius] = [number('cx'), number('cy'), number('r')];
      const half = `a${radius} ${radius} 0 1 0`;
      return `M${middleX - radius} ${middleY}${half} ${2 * radius} 0${half} ${-2 * radius} 0Z`;
    }
    default:
      return '';
  }
}
