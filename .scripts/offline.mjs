import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { projectRoot } from './command.mjs';

/** The name is for ever: a browser asks for news of its worker where it found it. */
export const workerFile = 'offline.js';

/** @param {string} file a name below the build's folder */
const isForTheBrowser = (file) =>
  file !== workerFile && !file.startsWith('.vite/') && !file.endsWith('.map') && !/(^|\/)\.[^/]+$/.test(file);

/**
 * What the worker has to keep: each file of the build by its address from the worker, with its hash as browsers check it.
 *
 * @param {string} dir the build's folder
 * @returns {Promise<[address: string, integrity: string][]>}
 */
export async function filesToKeep(dir) {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  const files = entries
    .filter((entry) => entry.isFile())
    .map(({ name, parentPath }) => path.relative(dir, path.join(parentPath, name)).split(path.sep).join('/'))
    .filter(isForTheBrowser)
    .sort();
  return Promise.all(
    files.map(async (file) => {
      const hash = createHash('sha256').update(await readFile(path.join(dir, file)));
      // Asked for as the folder: some servers lead from the page's own name to it, and a page that was led may not be kept.
      return /** @type {[string, string]} */ ([
        file === 'index.html' ? './' : file,
        `sha256-${hash.digest('base64')}`,
      ]);
    }),
  );
}

/** @param {string} dir the finished build's folder */
export async function writeWorker(dir) {
  const files = await filesToKeep(dir);
  const code = await readFile(path.join(projectRoot, '.scripts', 'offlineWorker.js'), 'utf8');
  const version = createHash('sha256').update(JSON.stringify(files)).update(code).digest('hex').slice(0, 16);
  const known = `const version = ${JSON.stringify(version)};\nconst files = ${JSON.stringify(files, null, 1)};\n`;
  await writeFile(path.join(dir, workerFile), known + code);
}

/**
 * Writes the worker that keeps the build on the reader's computer, from the files as they lie there at the very end.
 *
 * @returns {import('vite').Plugin}
 */
export function offlineWorker() {
  let dir = '';
  return {
    name: 'offline-worker',
    apply: 'build',
    configResolved({ root, build }) {
      dir = path.resolve(root, build.outDir);
    },
    closeBundle: { order: 'post', sequential: true, handler: () => writeWorker(dir) },
  };
}
