import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../.scripts/command.mjs';
import {
  bareSelectors,
  literalColours,
  literalSizes,
  selectorsOf,
  sharedClasses,
  undeclaredTokens,
  unusedClasses,
} from './styleRules.ts';

const src = path.join(projectRoot, 'src');
const filesBelow = (ending: RegExp) =>
  readdirSync(src, { recursive: true, encoding: 'utf8' })
    .filter((file) => ending.test(file))
    .map((file) => file.split(path.sep).join('/'));
const read = (file: string) => readFileSync(path.join(src, file), 'utf8');

const sheets = new Map(filesBelow(/\.css$/).map((file) => [file, read(file)]));
const besides = (...files: string[]) => [...sheets].filter(([file]) => !files.includes(file));

const tokens = 'views/parts/tokens.css';
/** Paper has colours and sizes of its own: the light scheme darker still, and points in place of px. */
const print = 'views/parts/print.css';
/** A sheet of paper on the screen too. */
const report = 'views/report/report.css';
/** How plain elements look. */
const base = 'views/parts/base.css';

const told = (file: string, found: readonly string[]) => found.map((what) => `${file}: ${what}`);

describe('the style sheets', () => {
  it('take every colour from the tokens', () => {
    expect(sheets.size).toBeGreaterThan(20);
    expect(besides(tokens, print).flatMap(([file, css]) => told(file, literalColours(css)))).toEqual([]);
  });

  it('set type in one of the five sizes', () => {
    expect(besides(tokens, print, report).flatMap(([file, css]) => told(file, literalSizes(css)))).toEqual(
      [],
    );
  });

  it('use no token that is not declared', () => {
    expect(undeclaredTokens(sheets)).toEqual([]);
  });

  it('give no class a look that depends on which screens were looked at before', () => {
    expect(sharedClasses(new Map(besides(print)))).toEqual([]);
    expect(besides(base, print, tokens).flatMap(([file, css]) => told(file, bareSelectors(css)))).toEqual([]);
  });

  it('name no class that nothing has', () => {
    const sources = filesBelow(/\.tsx?$/)
      .map(read)
      .join('\n');
    // The chart library's own.
    const notOurs = /^recharts-/;
    expect(unusedClasses(sheets, sources).filter((name) => !notOurs.test(name))).toEqual([]);
  });
});

describe('the check of the style sheets', () => {
  it.each([
    'color: #fff;',
    'background: rgb(0 0 0 / 10%);',
    'border: 1px solid hsl(10 20% 30%);',
    'color: white;',
    'fill: CanvasText;',
  ])('sees the colour in %s', (declaration) => {
    expect(literalColours(`.a { ${declaration} }`)).toHaveLength(1);
  });

  it('lets tokens pass, and what only looks like a colour', () => {
    expect(literalColours('.a { color: var(--ink); white-space: nowrap; } #new { color: inherit; }')).toEqual(
      [],
    );
  });

  it.each(['font-size: 12px;', 'font-size: 0.8em;', 'font: 600 9pt sans-serif;'])(
    'sees the size in %s',
    (declaration) => {
      expect(literalSizes(`.a { ${declaration} }`)).toHaveLength(1);
      expect(literalSizes('.a { font: var(--size-text) / 1.45 var(--sans); font-size: inherit; }')).toEqual(
        [],
      );
    },
  );

  it('takes selectors apart and leaves out what is none', () => {
    const css =
      '@media print { .a, .b:is(i, em) { top: 0 } } @keyframes k { from { top: 0 } 50% { top: 0 } }';
    expect(selectorsOf(`/* .c { */ ${css}`)).toEqual(['.a', '.b:is(i, em)']);
  });

  it('sees a class of two sheets, but not a part that is changed within another class', () => {
    const one = '.list li { top: 0 } .field { top: 0 }';
    expect(
      sharedClasses(
        new Map([
          ['one.css', one],
          ['two.css', '.list { top: 1px }'],
        ]),
      ),
    ).toEqual(['.list: one.css, two.css']);
    expect(
      sharedClasses(
        new Map([
          ['one.css', one],
          ['two.css', '.page .list { top: 1px }'],
        ]),
      ),
    ).toEqual([]);
  });

  it('sees bare elements, tokens that are none and classes that nothing has', () => {
    expect(bareSelectors('summary { top: 0 } .a summary, [data-b] { top: 0 }')).toEqual(['summary']);
    const css = new Map([['one.css', ':root { --a: 0 } .kept, .gone { top: var(--a); left: var(--b) }']]);
    expect(undeclaredTokens(css)).toEqual(['--b']);
    expect(unusedClasses(css, 'className="kept gone-by"')).toEqual(['gone']);
  });
});
