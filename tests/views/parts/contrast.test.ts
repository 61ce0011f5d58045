// @vitest-environment node
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const css = readFileSync(path.resolve('src/views/parts/tokens.css'), 'utf8');
const [light = '', dark = ''] = css.split('@media (prefers-color-scheme: dark)');

function coloursIn(text: string): Map<string, string> {
  return new Map(
    [...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6});/gi)].map(([, name = '', hex = '']) => [name, hex]),
  );
}

const themes = { light: coloursIn(light), dark: new Map([...coloursIn(light), ...coloursIn(dark)]) };

/** WCAG 2.2, definitions of relative luminance and contrast ratio. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((start) => Number.parseInt(hex.slice(start, start + 2), 16) / 255)
    .map((channel) => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [brighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (brighter + 0.05) / (darker + 0.05);
}

describe('contrast', () => {
  it('is computed as WCAG does: black on white is 21, #767676 on white just above 4.5', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    // The lightest grey that passes on white: a value every accessibility guide names, from memory.
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });
});

describe.each(['light', 'dark'] as const)('the %s paper', (theme) => {
  const colour = (name: string) => {
    const hex = themes[theme].get(name);
    if (hex === undefined) throw new Error(`tokens.css has no colour --${name}`);
    return hex;
  };

  // Success criterion 1.4.3, level AA.
  it.each(
    ['ink', 'quiet', 'accent', 'pass', 'warn', 'fail', 'establishing'].flatMap((text) =>
      ['paper', 'paper-raised'].map((ground) => [text, ground] as const),
    ),
  )('carries text in --%s on --%s at 4.5 : 1 or more', (text, ground) => {
    expect(contrast(colour(text), colour(ground))).toBeGreaterThanOrEqual(4.5);
  });

  it('carries the words of a main button at 4.5 : 1 or more, also while it is saving', () => {
    expect(contrast(colour('on-accent'), colour('accent'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(colour('ink'), colour('rule'))).toBeGreaterThanOrEqual(4.5);
  });

  it('carries ink and the marks on the pale band of own limits', () => {
    expect(contrast(colour('ink'), colour('band'))).toBeGreaterThanOrEqual(4.5);
    for (const mark of ['pass', 'warn', 'fail', 'quiet']) {
      expect(contrast(colour(mark), colour('band')), mark).toBeGreaterThanOrEqual(3);
    }
  });

  // Success criterion 1.4.11, level AA.
  it.each([
    ['field-edge', 'paper'],
    ['field-edge', 'paper-raised'],
    ['band-edge', 'paper'],
    ['accent', 'paper-raised'],
    ['pass', 'paper'],
    ['warn', 'paper'],
    ['fail', 'paper'],
    ['establishing', 'paper'],
  ])('shows the edge or mark --%s on --%s at 3 : 1 or more', (mark, ground) => {
    expect(contrast(colour(mark), colour(ground))).toBeGreaterThanOrEqual(3);
  });
});

describe('the style sheets', () => {
  it('take every colour from the tokens', () => {
    for (const sheet of [
      'parts/base.css',
      'parts/parts.css',
      'bench/bench.css',
      'equipment/equipment.css',
      'review/review.css',
    ]) {
      const text = readFileSync(path.resolve('src/views', sheet), 'utf8');
      expect(text, sheet).not.toMatch(/#[0-9a-f]{3,8}\b|\brgba?\(|\bhsl/i);
    }
  });
});
