import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { distDir } from './build.mjs';
import { projectRoot, runNode } from './command.mjs';

const sources = [
  'src',
  'public',
  'index.html',
  'package-lock.json',
  'vite.config.ts',
  '.scripts/contentPolicy.mjs',
  '.scripts/offline.mjs',
  '.scripts/offlineWorker.js',
];

/**
 * The latest change below a path; minus infinity where nothing is.
 *
 * @param {string} target
 * @returns {Promise<number>} ms since 1970
 */
async function latestChange(target) {
  const found = await stat(target).catch(() => null);
  if (found === null) return Number.NEGATIVE_INFINITY;
  if (!found.isDirectory()) return found.mtimeMs;
  const names = await readdir(target);
  // The folder's own time counts too: it alone changes when a file is deleted.
  const times = await Promise.all(names.map((name) => latestChange(path.join(target, name))));
  return Math.max(found.mtimeMs, ...times);
}

/** Builds when there is no build, or when any source is newer than it. */
export async function ensureFreshBuild() {
  const builtAt = await latestChange(path.join(distDir, '.vite', 'manifest.json'));
  const changes = await Promise.all(sources.map((source) => latestChange(path.join(projectRoot, source))));
  if (builtAt > Math.max(...changes)) return;
  if ((await runNode('.scripts/build.mjs')) !== 0) throw new Error('The build failed: see above.');
}
