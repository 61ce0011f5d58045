// What the bench form loads before anything is drawn must stay small, and must not hold the charts' library.
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { distDir } from './build.mjs';
import { isStarted, projectRoot } from './command.mjs';

const budgetKb = 165;
const entry = 'index.html';
const benchFolder = 'src/views/bench/';
const chartLibrary = 'recharts';

/** @typedef {{ file: string, imports?: string[], dynamicImports?: string[], isEntry?: boolean }} Chunk */
/** @typedef {Record<string, Chunk>} Manifest */

/**
 * @param {Manifest} manifest
 * @param {string} key
 */
function chunkOf(manifest, key) {
  const chunk = manifest[key];
  if (chunk === undefined) throw new Error(`The build's manifest has no "${key}".`);
  return chunk;
}

/**
 * The keys of all that a page has to load for `roots`: they and their static imports, to the last.
 *
 * @param {Manifest} manifest
 * @param {readonly string[]} roots
 */
export function staticClosure(manifest, roots) {
  /** @type {Set<string>} */
  const reached = new Set();
  const waiting = [...roots];
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
    if (reached.has(key)) continue;
    reached.add(key);
    waiting.push(...(chunkOf(manifest, key).imports ?? []));
  }
  return reached;
}

/**
 * The entry, and the bench screen's own chunks when it is loaded apart.
 *
 * @param {Manifest} manifest
 */
export function benchRoots(manifest) {
  if (chunkOf(manifest, entry).isEntry !== true) throw new Error(`"${entry}" is not an entry of the build.`);
  return [entry, ...Object.keys(manifest).filter((key) => key.startsWith(benchFolder))];
}

/**
 * Whether a built file holds code of a package, by its source map: file and chunk names say nothing certain.
 * Only the bundler's own few lines of runtime come without a map.
 *
 * @param {string} file
 * @param {string} packageName
 */
async function holdsPackage(file, packageName) {
  const code = await readFile(path.join(distDir, file), 'utf8');
  if (!code.includes('//# sourceMappingURL=')) {
    if (code.length > 2000) throw new Error(`${file} has no source map, so nobody knows what it holds.`);
    return false;
  }
  /** @type {{ sources: (string | null)[] }} */
  const map = JSON.parse(await readFile(path.join(distDir, `${file}.map`), 'utf8'));
  return map.sources.some((source) => source?.includes(`node_modules/${packageName}/`));
}

/** @param {string} file */
async function gzipKb(file) {
  return gzipSync(await readFile(path.join(distDir, file))).length / 1000;
}

async function checkSize() {
  /** @type {Manifest} */
  const manifest = JSON.parse(await readFile(path.join(distDir, '.vite', 'manifest.json'), 'utf8'));
  const reached = staticClosure(manifest, benchRoots(manifest));
  const early = new Set(
    [...reached].map((key) => chunkOf(manifest, key).file).filter((file) => file.endsWith('.js')),
  );
  const files = new Set(Object.values(manifest).map((chunk) => chunk.file));
  const scripts = [...files].filter((file) => file.endsWith('.js')).sort();

  let total = 0;
  let chartsEarly = false;
  let chartsAnywhere = false;
  for (const file of scripts) {
    const kb = await gzipKb(file);
    const isEarly = early.has(file);
    if (isEarly) total += kb;
    if (await holdsPackage(file, chartLibrary)) {
      chartsAnywhere = true;
      chartsEarly ||= isEarly;
    }
    console.log(`${kb.toFixed(1).padStart(8)} kB  ${isEarly ? 'for the bench' : 'when needed  '}  ${file}`);
  }
  console.log(
    `${total.toFixed(1).padStart(8)} kB  gzipped JavaScript before the bench form stands (budget ${budgetKb} kB)`,
  );

  /** @type {{ dependencies: Record<string, string> }} */
  const { dependencies } = JSON.parse(await readFile(path.join(projectRoot, 'package.json'), 'utf8'));
  const problems = [];
  if (total > budgetKb) problems.push(`${(total - budgetKb).toFixed(1)} kB over the budget.`);
  if (chartsEarly)
    problems.push(`${chartLibrary} is loaded with the bench form: it must wait for the first chart.`);
  if (chartLibrary in dependencies && !chartsAnywhere) {
    problems.push(
      `${chartLibrary} is in no built file: it is unused, or this check no longer recognises it.`,
    );
  }
  return problems;
}

if (isStarted(import.meta.url)) {
  try {
    const problems = await checkSize();
    for (const problem of problems) console.error(problem);
    if (problems.length > 0) process.exitCode = 1;
  } catch (error) {
    console.error(`The size cannot be checked: ${error instanceof Error ? error.message : error}`);
    process.exitCode = 1;
  }
}
