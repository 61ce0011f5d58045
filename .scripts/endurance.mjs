// npm run test:endurance: the tests that have a longer form, in it. Which these are their own text says.
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { findOrInstallChromium } from './chromium.mjs';
import { artifactsDir, projectRoot, runNode } from './command.mjs';

const testsDir = path.join(projectRoot, 'tests');

/** Test files that ask whether they are to run in their longer form, themselves or by a file that they import. */
async function filesWithLongForm() {
  const names = (await readdir(testsDir, { recursive: true })).filter((name) => /\.tsx?$/.test(name));
  const texts = new Map(
    await Promise.all(
      names.map(
        async (name) => /** @type {const} */ ([name, await readFile(path.join(testsDir, name), 'utf8')]),
      ),
    ),
  );
  const asking = names.filter((name) => texts.get(name)?.includes('process.env.ENDURANCE'));
  const asks = (/** @type {string} */ name) =>
    asking.some((one) => one === name || texts.get(name)?.includes(`/${path.basename(one)}'`));
  return names
    .filter((name) => /\.test\.tsx?$/.test(name) && asks(name))
    .map((name) => path.join(testsDir, name));
}

/** What the tests wrote down of their runs, a line each. */
async function figures() {
  const names = (await readdir(artifactsDir)).filter((name) => /^endurance-.*\.json$/.test(name)).sort();
  return Promise.all(
    names.map(async (name) => `${name}: ${(await readFile(path.join(artifactsDir, name), 'utf8')).trim()}`),
  );
}

try {
  const files = await filesWithLongForm();
  if (files.length === 0) throw new Error('No test has a longer form.');
  process.exitCode = await runNode('node_modules/vitest/vitest.mjs', ['run', ...files], {
    NODE_ENV: 'test',
    ENDURANCE: '1',
    CHROMIUM_PATH: await findOrInstallChromium(),
  });
  for (const line of await figures()) console.log(line);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
