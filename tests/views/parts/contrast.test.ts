// @vitest-environment node
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const views = path.resolve('src/views');
const read = (file: string) => readFileSync(path.join(views, file), 'utf8');
const sheets = readdirSync(views, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.css'))
  .map(read)
  .join('\n');

const [light = '', inTheDark = ''] = read('parts/tokens.css').split('@media (prefers-color-scheme: dark)');
const [dark = ''] = inTheDark.split('@media');
const [, paper = ''] = read('parts/print.css').split('@media print');

/** `#777` is `#777777`. */
const inFull = (hex: string) =>
  hex.length === 4 ? `#${[...hex.slice(1)].map((digit) => digit + digit).join('')}` : hex;

function coloursIn(text: string): Map<string, string> {
  const declared = text.matchAll(/--([\w-]+):\s*(#(?:[0-9a-f]{6}|[0-9a-f]{3}));/gi);
  return new Map([...declared].map(([, name = '', hex = '']) => [name, inFull(hex)]));
}

const themes = {
  light: coloursIn(light),
  dark: new Map([...coloursIn(light), ...coloursIn(dark)]),
  print: new Map([...coloursIn(light), ...coloursIn(paper)]),
};

/** What letters are set in, and what they stand on. */
const texts = ['ink', 'quiet', 'accent', 'pass', 'warn', 'fail', 'establishing'];
const grounds = ['paper', 'paper-raised'];
/** What a line or a mark is drawn in that means something. */
const marks = [...texts, 'field-edge', 'band-edge'];

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

/** Tokens that some sheet gives to a property, such as `color`. */
const used = (property: string) =>
  new Set(
    [...sheets.matchAll(new RegExp(`(?<![\\w-])${property}:[^;{}]*?var\\(--([\\w-]+)\\)[^;{}]*;`, 'g'))].map(
      ([, name = '']) => name,
    ),
  );

describe('the tokens in use', () => {
  it('are among those whose contrast is computed here', () => {
    const without = (names: ReadonlySet<string>, known: readonly string[]) =>
      [...names].filter((name) => !known.includes(name)).sort();
    // `on-accent` stands on `accent` alone, and `on-idle` on `idle`.
    expect(without(used('color'), [...texts, 'on-accent', 'on-idle'])).toEqual([]);
    expect(without(used('background(?:-color)?'), [...grounds, 'accent', 'idle'])).toEqual([]);
    // A rule divides what is told apart by its place; a band has its edges; paper covers what lies under a mark.
    const plain = ['rule', 'band', 'band-outline', 'no-edge', 'paper', 'step'];
    for (const property of ['fill', 'stroke', 'border(?:-\\w+)*', 'outline']) {
      expect(without(used(property), [...marks, ...plain]), property).toEqual([]);
    }
  });

  it('are each given for the dark and for paper too', () => {
    for (const given of [coloursIn(dark), coloursIn(paper)]) {
      expect([...given.keys()].sort()).toEqual([...coloursIn(light).keys()].sort());
    }
  });
});

describe.each(['light', 'dark', 'print'] as const)('the %s scheme', (theme) => {
  const colour = (name: string) => {
    const hex = themes[theme].get(name);
    if (hex === undefined) throw new Error(`no colour --${name}`);
    return hex;
  };
  const pairs = (fronts: readonly string[]) =>
    fronts.flatMap((front) => grounds.map((ground) => [front, ground] as const));

  // Success criterion 1.4.3, level AA.
  it.each(pairs(texts))('carries text in --%s on --%s at 4.5 : 1 or more', (text, ground) => {
    expect(contrast(colour(text), colour(ground))).toBeGreaterThanOrEqual(4.5);
  });

  it('carries the words of a main button at 4.5 : 1 or more, also while it is saving', () => {
    expect(contrast(colour('on-accent'), colour('accent'))).toBeGreaterThanOrEqual(4.5);
    // `idle` is `rule`, and `on-idle` is `ink`.
    expect(contrast(colour('ink'), colour('rule'))).toBeGreaterThanOrEqual(4.5);
  });

  // Success criterion 1.4.11, level AA.
  it.each(pairs(marks))('shows the edge or mark --%s on --%s at 3 : 1 or more', (mark, ground) => {
    expect(contrast(colour(mark), colour(ground))).toBeGreaterThanOrEqual(3);
  });

  it('carries ink and the marks on the pale band of own limits', () => {
    expect(contrast(colour('ink'), colour('band'))).toBeGreaterThanOrEqual(4.5);
    for (const mark of texts) expect(contrast(colour(mark), colour('band')), mark).toBeGreaterThanOrEqual(3);
  });

  it('carries the runs and the failures of the strip through the window that is drawn over it', () => {
    // color-mix(in srgb, …) mixes channel by channel.
    const share = 0.12;
    const channel = (hex: string, start: number) => Number.parseInt(hex.slice(start, start + 2), 16);
    const tinted = `#${[1, 3, 5]
      .map((start) =>
        Math.round(share * channel(colour('accent'), start) + (1 - share) * channel(colour('paper'), start))
          .toString(16)
          .padStart(2, '0'),
      )
      .join('')}`;
    expect(sheets).toContain('color-mix(in srgb, var(--accent) 12%, transparent)');
    for (const mark of ['ink', 'fail'])
      expect(contrast(colour(mark), tinted), mark).toBeGreaterThanOrEqual(3);
  });
});
