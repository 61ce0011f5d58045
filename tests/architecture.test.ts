import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot } from '../.scripts/command.mjs';
import packageJson from '../package.json' with { type: 'json' };
import { breaches, importsOf, layers } from './importRules.ts';
import { impurities } from './purityRules.ts';
import { giveaways, strays } from './repositoryRules.ts';

const dependencies = Object.keys(packageJson.dependencies);

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(path.join(folder, name)).isFile())
    .map((name) => name.split(path.sep).join('/'));
}

function readSources(): Map<string, string> {
  const src = path.join(projectRoot, 'src');
  return new Map(filesBelow(src).map((file) => [file, readFileSync(path.join(src, file), 'utf8')]));
}

/** What git would hand to others. A copy without git, as an archive gives, is taken for all that is not ignored. */
function trackedFiles(): string[] {
  if (!existsSync(path.join(projectRoot, '.git'))) return unignoredFiles();
  // Any owner's checkout will do: build machines often clone as one user and test as another.
  const listing = ['-c', 'safe.directory=*', 'ls-files', '-z'];
  const listed = execFileSync('git', listing, { cwd: projectRoot, encoding: 'utf8' });
  return listed.split('\0').filter((file) => file !== '' && existsSync(path.join(projectRoot, file)));
}

function unignoredFiles(): string[] {
  const ignored = readFileSync(path.join(projectRoot, '.gitignore'), 'utf8').split(/\/?\s*\n/);
  return readdirSync(projectRoot, { withFileTypes: true })
    .filter((entry) => !ignored.includes(entry.name))
    .flatMap(({ name, parentPath }) =>
      statSync(path.join(parentPath, name)).isFile()
        ? [name]
        : filesBelow(path.join(parentPath, name)).map((file) => `${name}/${file}`),
    );
}

const check = (sources: Record<string, string>) => breaches(new Map(Object.entries(sources)), dependencies);

describe('the layers of src', () => {
  it('hold in every source file', () => {
    const sources = readSources();
    expect(sources.size).toBeGreaterThan(0);
    expect(breaches(sources, dependencies)).toEqual([]);
  });

  it('stand in order: each imports only from those listed before it', () => {
    const order = Object.keys(layers);
    for (const [layer, below] of Object.entries(layers)) {
      for (const name of below)
        expect(order.indexOf(name), `${layer} → ${name}`).toBeLessThan(order.indexOf(layer));
      for (const name of below) expect(order).toContain(name);
    }
  });
});

describe('the check of the layers', () => {
  it('lets downward imports pass', () => {
    expect(
      check({
        'core/gas.ts': "import { format } from 'date-fns'; export { format };",
        'journal/fold.ts': "import type { Ambient } from '../core/gas.ts'; export type Kept = Ambient;",
        'store/open.ts': "import Dexie from 'dexie'; import '../journal/fold.ts'; export default Dexie;",
        'views/app.tsx': "import './bench/form.tsx'; import '../store/open.ts'; import '../demo/make.ts';",
        'views/bench/form.tsx': "import '../parts/badge.tsx'; import '../routes.ts'; import './draft.ts';",
      }),
    ).toEqual([]);
  });

  it.each([
    ['import', "import '../store/open.ts';"],
    ['import type', "import type { A } from '../store/open.ts';"],
    ['inline type', "import { type A } from '../store/open.ts';"],
    ['export from', "export { a } from '../store/open.ts';"],
    ['export type from', "export type { A } from '../store/open.ts';"],
    ['export all', "export * from '../store/open.ts';"],
    ['import()', "export const a = () => import('../store/open.ts');"],
    ['import() of a type', "export type A = import('../store/open.ts').A;"],
    ['import = require', "import a = require('../store/open.ts');"],
    ['require', "const a = require('../store/open.ts');"],
    ['new URL', "new Worker(new URL('../store/open.ts', import.meta.url));"],
    ['query', "import a from '../store/open.ts?raw';"],
  ])('sees an upward %s', (_form, source) => {
    expect(check({ 'core/gas.ts': source })).toEqual(['core/gas.ts: core may not import store']);
  });

  it.each([
    ['store', 'exchange'],
    ['exchange', 'store'],
    ['journal', 'exchange'],
    ['demo', 'store'],
    ['store', 'views'],
  ])('refuses %s → %s', (from, to) => {
    expect(check({ [`${from}/a.ts`]: `import type { B } from '../${to}/b.ts';` })).toEqual([
      `${from}/a.ts: ${from} may not import ${to}`,
    ]);
  });

  it('lets the journal have types of core and nothing that runs', () => {
    expect(check({ 'journal/a.ts': "import { type A } from '../core/gas.ts';" })).toHaveLength(1);
    expect(check({ 'journal/a.ts': "import type { A } from '../core/gas.ts';" })).toEqual([]);
  });

  it('keeps the screens apart, and the shared parts below them', () => {
    const screen = { 'views/charts/chart.tsx': "import '../bench/form.tsx';" };
    const part = { 'views/parts/badge.tsx': "export * from '../bench/form.tsx';" };
    const form = { 'views/runForm/fields.tsx': "import '../bench/form.tsx';" };
    expect(check(screen)).toHaveLength(1);
    expect(check(part)).toHaveLength(1);
    expect(check(form)).toHaveLength(1);
    expect(check({ 'views/run/amend.tsx': "import '../runForm/fields.tsx';" })).toEqual([]);
  });

  it('refuses a file outside every layer, and an import of one', () => {
    expect(check({ 'helpers/a.ts': '', 'main.ts': '' })).toHaveLength(2);
    expect(check({ 'core/a.ts': "import '../helpers/a.ts';" })).toHaveLength(1);
    expect(check({ 'core/a.ts': "import '../../package.json';" })).toHaveLength(1);
  });

  it('refuses packages in core, undeclared packages, and packages away from home', () => {
    expect(check({ 'core/a.ts': "import 'zod/mini';" })).toEqual(['core/a.ts: core may not use zod']);
    expect(check({ 'views/app.tsx': "import '@made-up/package/sub';" })).toEqual([
      'views/app.tsx: @made-up/package is not among the dependencies of package.json',
    ]);
    expect(check({ 'exchange/a.ts': "import fs from 'node:fs';" })).toHaveLength(1);
    expect(check({ 'views/app.tsx': "import Dexie from 'dexie';" })).toHaveLength(1);
    expect(check({ 'views/bench/a.tsx': "import 'recharts';" })).toHaveLength(1);
  });

  it('refuses an import whose target it cannot know', () => {
    expect(check({ 'core/a.ts': 'export const a = (b: string) => import(b);' })).toHaveLength(1);
    expect(check({ 'core/a.ts': "export const a = import.meta.glob('../views/*.ts');" })).toHaveLength(1);
  });

  it('finds a loop of files, but none through types or through a file loaded later', () => {
    const a = "import '../core/b.ts';";
    expect(check({ 'core/a.ts': a, 'core/b.ts': "export * from './a.ts';" })).toEqual([
      'core/a.ts → core/b.ts → core/a.ts: a loop',
    ]);
    expect(check({ 'core/a.ts': "import './a.ts';" })).toEqual(['core/a.ts → core/a.ts: a loop']);
    expect(check({ 'core/a.ts': a, 'core/b.ts': "import type { A } from './a.ts';" })).toEqual([]);
    expect(check({ 'core/a.ts': a, 'core/b.ts': "export const c = () => import('./a.ts');" })).toEqual([]);
  });

  it('is not misled by comments and text, and does not pass over what it cannot read', () => {
    expect(
      importsOf('a.ts', "// import '../store/open.ts';\nexport const a = \"from '../store/open.ts'\";"),
    ).toEqual([]);
    expect(() => importsOf('a.ts', 'import {')).toThrow(/a\.ts/);
  });
});

describe('the pure layers', () => {
  it('read no clock, draw no lots and know no locale', () => {
    expect(impurities(readSources())).toEqual([]);
  });

  it.each([
    ['Date.now', 'const now = Date.now;'],
    ['the bare Date', 'const now = new Date();'],
    ['Date as a function', 'const now = Date();'],
    ['Math.random', 'const chance = Math.random();'],
    ['a fresh identity', 'const id = crypto.randomUUID();'],
    ['a locale', 'const text = (1.5).toLocaleString();'],
  ])('would be caught with %s', (_what, source) => {
    expect(impurities(new Map([['journal/a.ts', source]]))).toHaveLength(1);
    expect(impurities(new Map([['store/a.ts', source]]))).toEqual([]);
  });

  it('may handle instants that they are given', () => {
    const source = "const instant = new Date('2024-01-01T00:00:00Z').toISOString(); // not Date.now()";
    expect(impurities(new Map([['core/a.ts', source]]))).toEqual([]);
  });
});

describe('the repository', () => {
  it('holds nothing at its top that is not meant to be there', () => {
    expect(trackedFiles()).toContain('package.json');
    expect(strays(trackedFiles())).toEqual([]);
  });

  it('gives away no machine, person or registry in any tracked file', () => {
    const found = trackedFiles().flatMap((file) =>
      giveaways(readFileSync(path.join(projectRoot, file), 'utf8')).map((what) => `${file}: ${what}`),
    );
    expect(found).toEqual([]);
  });
});

describe('the check of the repository', () => {
  it('names each stray once', () => {
    expect(strays(['src/a.ts', 'notes.md', 'dist/a.js', 'dist/b.js', '.env'])).toEqual([
      '.env',
      'dist',
      'notes.md',
    ]);
  });

  // Put together here, so that this file does not give itself away.
  const slash = '/';
  const quote = '"';
  it.each([
    ['a work folder', `see ${slash}work/main`],
    ['a temporary folder', `"${slash}tmp/trial"`],
    ['the home of root', `file:/${slash}root/notes`],
    ['a home', `cd ${slash}home/someone/logbook`],
    ['a home on a Mac', `${slash}Users/someone/logbook`],
    ['a home on Windows', ['C:', 'Users', 'someone'].join('\\')],
    ['the lock of a registry', `"resolved${quote}: "https:${slash}/packages.invalid/a.tgz"`],
    ['a registry', `https:${slash}/registry.made-up.invalid/a`],
  ])('sees %s', (_what, text) => {
    expect(giveaways(text)).toHaveLength(1);
  });

  it('lets addresses, units and relative paths pass', () => {
    const harmless =
      "http://127.0.0.1:4310/work ./tmp/x ../root/y mL/min/mmHg https://json-schema.org src/root/a '/'";
    expect(giveaways(harmless)).toEqual([]);
  });
});
