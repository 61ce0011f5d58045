import path from 'node:path';
import { isNamed, isNode, nodesOf, type SyntaxNode } from './syntax.ts';

/** What each layer may import, from the bottom up. A layer is a first folder under src; its own files are always open to it. */
export const layers: Readonly<Record<string, readonly string[]>> = {
  core: [],
  journal: ['core'],
  store: ['journal', 'core'],
  exchange: ['journal', 'core'],
  demo: ['exchange', 'journal', 'core'],
  views: ['demo', 'store', 'exchange', 'journal', 'core'],
};

/** Layers that know another by its types only: the journal keeps what was entered and computes nothing. */
const typesOnly: Readonly<Record<string, readonly string[]>> = { journal: ['core'] };

/** All that core may import from outside: civil dates in the laboratory's time zone are no arithmetic of ours. */
const packagesOfCore = ['date-fns', '@date-fns/tz'];

/** Packages with one home, so that what they touch is touched in one place. */
const homes: Readonly<Record<string, string>> = {
  dexie: 'store/',
  papaparse: 'exchange/',
  react: 'views/',
  'react-dom': 'views/',
  recharts: 'views/charting/',
  wouter: 'views/',
};

export interface Import {
  /** As written; `null` where only the running program would know it. */
  specifier: string | null;
  /** Nothing of it is left in the built program. */
  typeOnly: boolean;
  /** Loaded when called for, not before the importing file runs. */
  lazy: boolean;
}

function literal(value: unknown): string | null {
  if (!isNode(value)) return null;
  if (value.type === 'Literal' && typeof value.value === 'string') return value.value;
  return value.type === 'TSLiteralType' ? literal(value.literal) : null;
}

/** `import.meta.…` or `import.meta` itself. */
const isImportMeta = (value: unknown): boolean =>
  isNode(value) &&
  (value.type === 'MetaProperty' || (value.type === 'MemberExpression' && isImportMeta(value.object)));

function importIn(node: SyntaxNode): Import | null {
  switch (node.type) {
    case 'ImportDeclaration':
      return { specifier: literal(node.source), typeOnly: node.importKind === 'type', lazy: false };
    case 'ExportNamedDeclaration':
    case 'ExportAllDeclaration':
      if (!isNode(node.source)) return null;
      return { specifier: literal(node.source), typeOnly: node.exportKind === 'type', lazy: false };
    case 'ImportExpression':
      return { specifier: literal(node.source), typeOnly: false, lazy: true };
    case 'TSImportType':
      return { specifier: literal(node.source), typeOnly: true, lazy: false };
    case 'TSExternalModuleReference':
      return { specifier: literal(node.expression), typeOnly: false, lazy: false };
    case 'CallExpression': {
      const { callee, arguments: given } = node;
      const first = Array.isArray(given) ? given[0] : undefined;
      if (isNamed(callee, 'require')) return { specifier: literal(first), typeOnly: false, lazy: true };
      // A pattern stands for any number of files.
      const isGlob = isNode(callee) && isImportMeta(callee.object) && isNamed(callee.property, 'glob');
      return isGlob ? { specifier: null, typeOnly: false, lazy: true } : null;
    }
    case 'NewExpression': {
      // How a worker's or an asset's file is named: new URL('./x.ts', import.meta.url).
      const given = Array.isArray(node.arguments) ? node.arguments : [];
      if (!isNamed(node.callee, 'URL') || !isImportMeta(given[1])) return null;
      return { specifier: literal(given[0]), typeOnly: false, lazy: true };
    }
    default:
      return null;
  }
}

/** Every import of a source text, in whatever form it is written. */
export function importsOf(file: string, source: string): Import[] {
  return nodesOf(file, source)
    .map(importIn)
    .filter((one) => one !== null);
}

const layerOf = (file: string) => (file.includes('/') ? (file.split('/')[0] ?? '') : '');

/** Folders of the views that are no screens: what several screens draw with, the form that two of them fill in, and the charts. */
const sharedViews: readonly string[] = ['parts', 'runForm', 'charting'];

/** The screen a view belongs to: its folder, unless it is shared or stands at the top of the views. */
function screenOf(file: string): string | null {
  const [layer, folder = '', ...rest] = file.split('/');
  return layer === 'views' && rest.length > 0 && !sharedViews.includes(folder) ? folder : null;
}

const packageName = (specifier: string) =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');

/** The file a relative import means, from src; `null` for a package. */
function targetOf(file: string, specifier: string): string | null {
  if (!specifier.startsWith('.') && !specifier.startsWith('/')) return null;
  return path.posix.join(path.posix.dirname(file), specifier.replace(/\?.*$/, ''));
}

function packageBreach(file: string, specifier: string, dependencies: readonly string[]): string | null {
  const name = packageName(specifier);
  const home = homes[name];
  if (!dependencies.includes(name)) return `${name} is not among the dependencies of package.json`;
  if (layerOf(file) === 'core' && !packagesOfCore.includes(name)) return `core may not use ${name}`;
  if (home !== undefined && !file.startsWith(home)) return `${name} is used in ${home} only`;
  return null;
}

function layerBreach(file: string, target: string, typeOnly: boolean): string | null {
  const from = layerOf(file);
  const to = layerOf(target);
  if (target.startsWith('..') || layers[to] === undefined) return `${target} is in no layer of src`;
  if (from !== to && layers[from]?.includes(to) !== true) return `${from} may not import ${to}`;
  if (!typeOnly && typesOnly[from]?.includes(to) === true) return `${from} may import types of ${to} only`;
  const screen = screenOf(target);
  if (from !== 'views' || screen === null || screen === screenOf(file)) return null;
  // app.tsx and its neighbours put the screens together, so they may see them all.
  const isTopOfViews = file.split('/').length === 2;
  return isTopOfViews
    ? null
    : `views/${screen} is a screen of its own: what is shared belongs in views/parts`;
}

/** Files that load each other before either can run, each loop once, as its path. */
function loops(eager: ReadonlyMap<string, readonly string[]>): string[] {
  const found: string[] = [];
  const done = new Set<string>();
  const walk = (file: string, trail: readonly string[]) => {
    const start = trail.indexOf(file);
    if (start >= 0) found.push(`${[...trail.slice(start), file].join(' → ')}: a loop`);
    if (start >= 0 || done.has(file)) return;
    for (const target of eager.get(file) ?? []) walk(target, [...trail, file]);
    done.add(file);
  };
  for (const file of eager.keys()) walk(file, []);
  return found;
}

/**
 * What breaks the layers, in words; nothing when they hold.
 *
 * @param sources text by path from src, scripts and styles alike
 * @param dependencies packages that the built program may hold
 */
export function breaches(sources: ReadonlyMap<string, string>, dependencies: readonly string[]): string[] {
  const found: string[] = [];
  const eager = new Map<string, string[]>();
  for (const [file, source] of sources) {
    if (layers[layerOf(file)] === undefined) found.push(`${file}: belongs to no layer`);
    if (!/\.tsx?$/.test(file)) continue;
    const targets: string[] = [];
    for (const { specifier, typeOnly, lazy } of importsOf(file, source)) {
      if (specifier === null) {
        found.push(`${file}: an import that only the running program knows cannot be checked`);
        continue;
      }
      const target = targetOf(file, specifier);
      const breach =
        target === null ? packageBreach(file, specifier, dependencies) : layerBreach(file, target, typeOnly);
      if (breach !== null) found.push(`${file}: ${breach}`);
      if (target !== null && !typeOnly && !lazy) targets.push(target);
    }
    eager.set(file, targets);
  }
  return [...found, ...loops(eager)];
}
