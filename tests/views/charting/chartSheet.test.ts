// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from 'vitest';
import {
  broken,
  type ChartSheet,
  chartSheet,
  type Drawing,
  type Shape,
} from '../../../src/views/charting/chartSheet.ts';
import { drawSheet } from '../../../src/views/charting/drawSheet.ts';
import { sheetAsSvg } from '../../../src/views/charting/sheetAsSvg.ts';
import { sheetWords } from '../../../src/views/charting/sheetWords.ts';
import { chartFileName } from '../../../src/views/parts/saveFile.ts';

const line: Shape = {
  kind: 'path',
  d: 'M0 0L10 10',
  matrix: [1, 0, 0, 1, 5, 6],
  fill: 'none',
  stroke: 'rgb(1, 2, 3)',
  strokeWidth: 0.75,
  dash: [14, 6],
};
const word: Shape = {
  kind: 'text',
  text: 'R<4s & "2-2s"',
  x: 30,
  y: 40,
  anchor: 'end',
  size: 13,
  weight: '600',
  fill: 'rgb(4, 5, 6)',
  halo: { stroke: 'rgb(250, 248, 243)', width: 3 },
};
const drawing: Drawing = {
  width: 400,
  height: 200,
  paper: 'rgb(250, 248, 243)',
  ink: 'rgb(27, 36, 48)',
  shapes: [line, word],
};
const words = {
  title: 'VA, Room 2, patient test',
  lines: ['Simulated VA in L.'],
  foot: ['Saved 3 Mar 2026.', `Workstation one: entry 9 is the last, hash ${'a1'.repeat(32)}`],
};
const sheet = chartSheet(drawing, words);

describe('a saved chart', () => {
  it('has its title above, what was drawn below it, and the foot under that', () => {
    const texts = sheet.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []));
    const at = (text: string) => texts.find((each) => each.text === text)?.y ?? Number.NaN;
    expect(at(words.title)).toBeLessThan(at('Simulated VA in L.'));
    expect(at('Simulated VA in L.')).toBeLessThan(at(word.text));
    expect(at('Saved 3 Mar 2026.')).toBeGreaterThan(at(word.text) + 200 - word.y);
    expect(Math.max(...texts.map(({ y }) => y))).toBeLessThan(sheet.height);
    expect(sheet.width).toBe(448);
  });

  it('moves path and word by the same way', () => {
    const moved = sheet.shapes.find((shape) => shape.kind === 'path');
    const label = sheet.shapes.find((shape) => shape.kind === 'text' && shape.text === word.text);
    if (moved?.kind !== 'path' || label?.kind !== 'text') throw new Error('nothing was drawn');
    expect(moved.matrix[4] - line.matrix[4]).toBe(label.x - word.x);
    expect(moved.matrix[5] - line.matrix[5]).toBe(label.y - word.y);
  });

  it('breaks lines between words, cuts a hash that is longer, and loses no letter', () => {
    expect(broken('one two three', 7)).toEqual(['one two', 'three']);
    expect(broken('hash abcdefghij', 4)).toEqual(['hash', 'abcd', 'efgh', 'ij']);
    expect(broken('', 5)).toEqual(['']);
    const written = sheet.shapes.map((shape) => (shape.kind === 'text' ? shape.text : '')).join('');
    expect(written).toContain('a1'.repeat(8));
    expect(written.match(/a1/g)?.length).toBe(32);
  });
});

describe('the SVG file', () => {
  const text = sheetAsSvg(sheet);
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');

  it('is well formed and says in words what it shows', () => {
    expect(parsed.querySelector('parsererror')).toBeNull();
    expect(parsed.querySelector('desc')?.textContent).toMatch(/^VA, Room 2.*hash (a1)+$/);
    expect([...parsed.querySelectorAll('text')].map(({ textContent }) => textContent)).toContain(word.text);
  });

  it('holds nothing that points outside, runs, or needs a style sheet', () => {
    expect(text).not.toMatch(/href|url\(|<script|<style|class=|var\(|<image/);
    expect(text.match(/https?:[^"]*/g)).toEqual(['http://www.w3.org/2000/svg']);
  });

  it('keeps stroke, dashes and rim', () => {
    const path = parsed.querySelector('path');
    expect(path?.getAttribute('stroke-dasharray')).toBe('14 6');
    expect(path?.getAttribute('stroke-width')).toBe('0.75');
    expect(parsed.querySelector('[paint-order]')?.getAttribute('stroke')).toBe('rgb(250, 248, 243)');
  });

  it('leaves out what XML cannot hold', () => {
    const bell: ChartSheet = { ...sheet, description: 'ring\u0007 <b>' };
    const again = new DOMParser().parseFromString(sheetAsSvg(bell), 'image/svg+xml');
    expect(again.querySelector('desc')?.textContent).toBe('ring  <b>');
  });
});

describe('the drawing on a canvas', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('lays the paper first, then every shape in its order and place, the rim under the letters', () => {
    vi.stubGlobal(
      'Path2D',
      class {
        readonly d: string;
        constructor(d: string) {
          this.d = d;
        }
      },
    );
    const done: string[] = [];
    const note =
      (name: string) =>
      (...given: readonly unknown[]) =>
        done.push(`${name} ${given.map((each) => (typeof each === 'object' ? '' : String(each))).join(' ')}`);
    const context = Object.fromEntries(
      [
        'setTransform',
        'transform',
        'fillRect',
        'fill',
        'stroke',
        'setLineDash',
        'fillText',
        'strokeText',
      ].map((name) => [name, note(name)]),
    );
    // A stand-in for what a browser gives: only the calls are looked at.
    drawSheet(context as unknown as CanvasRenderingContext2D, { ...sheet, shapes: [line, word] }, 2);
    expect(done.map((each) => each.trim())).toEqual([
      'setTransform 2 0 0 2 0 0',
      `fillRect 0 0 448 ${sheet.height}`,
      'setTransform 2 0 0 2 0 0',
      'transform 1 0 0 1 5 6',
      'setLineDash',
      'stroke',
      'setTransform 2 0 0 2 0 0',
      'setLineDash',
      'strokeText R<4s & "2-2s" 30 40',
      'fillText R<4s & "2-2s" 30 40',
    ]);
  });
});

describe('what a saved chart says of itself', () => {
  const source = {
    heading: 'VA, Room 2, patient test',
    measured: 'Simulated VA',
    scale: { unit: 'L' },
    model: { axis: 'value' as const },
    sentences: ['49 runs.', ''],
    laboratory: 'Lung laboratory',
    demonstration: false,
    heads: new Map([['workstation-one', { seq: 9, hash: 'abc' }]]),
    now: Date.UTC(2026, 2, 3, 12),
  };

  it('is unit, runs, laboratory, day and head of the journal', () => {
    const { lines, foot } = sheetWords(source);
    expect(lines).toEqual(['Simulated VA in L.', '49 runs.']);
    expect(foot[0]).toMatch(/^Saved 3 Mar 2026, .* from the Diffusion QC Logbook of Lung laboratory\.$/);
    expect(foot[1]).toBe('Workstation workstation-one: entry 9 is the last, hash abc');
  });

  it('is that nothing was measured, where the laboratory is invented', () => {
    expect(sheetWords({ ...source, demonstration: true }).foot[0]).toMatch(/^Demonstration data/);
    expect(sheetWords({ ...source, laboratory: '' }).foot[0]).toMatch(/Logbook\.$/);
    expect(sheetWords({ ...source, model: { axis: 'z' } }).lines[0]).toBe(
      'Simulated VA as z, in SD from the mean.',
    );
  });

  it('is in its file’s name', () => {
    expect(chartFileName('VA, Room 2', new Date(2026, 2, 3).getTime(), 'png')).toBe(
      'dlco-qc-chart_va-room-2_2026-03-03.png',
    );
  });
});
