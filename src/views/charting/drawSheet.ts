/** A sheet on a canvas. Drawn shape by shape: the page may load no picture, not even one that it made itself. */
import type { ChartSheet, PathShape, TextShape } from './chartSheet.ts';

const aligned = { start: 'left', middle: 'center', end: 'right' } as const;

export function drawSheet(context: CanvasRenderingContext2D, sheet: ChartSheet, scale: number): void {
  context.setTransform(scale, 0, 0, scale, 0, 0);
  context.fillStyle = sheet.paper;
  context.fillRect(0, 0, sheet.width, sheet.height);
  for (const shape of sheet.shapes) {
    context.setTransform(scale, 0, 0, scale, 0, 0);
    if (shape.kind === 'path') drawPath(context, shape);
    else drawText(context, shape);
  }
}

function drawPath(
  context: CanvasRenderingContext2D,
  { d, matrix, fill, stroke, strokeWidth, dash }: PathShape,
): void {
  context.transform(...matrix);
  const path = new Path2D(d);
  if (fill !== 'none') {
    context.fillStyle = fill;
    context.fill(path);
  }
  if (stroke !== 'none') {
    context.strokeStyle = stroke;
    context.lineWidth = strokeWidth;
    context.setLineDash([...dash]);
    context.stroke(path);
  }
}

function drawText(
  context: CanvasRenderingContext2D,
  { text, x, y, anchor, size, weight, fill, halo }: TextShape,
): void {
  context.font = `${weight} ${size}px system-ui, sans-serif`;
  context.textAlign = aligned[anchor];
  if (halo !== null) {
    context.strokeStyle = halo.stroke;
    context.lineWidth = halo.width;
    context.lineJoin = 'round';
    context.setLineDash([]);
    context.strokeText(text, x, y);
  }
  context.fillStyle = fill;
  context.fillText(text, x, y);
}

/** Twice as fine as the screen, so that it prints well. */
const finer = 2;

/** @throws {Error} if the browser gives no canvas to draw on, or makes no picture of it. */
export async function sheetAsPng(sheet: ChartSheet): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = sheet.width * finer;
  canvas.height = sheet.height * finer;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This browser gives no canvas to draw the picture on.');
  drawSheet(context, sheet, finer);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob === null) reject(new Error('This browser made no picture of the chart.'));
      else resolve(blob);
    }, 'image/png');
  });
}
