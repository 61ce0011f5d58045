// npm test: every check of the project, in order, to the end. The last line counts them all.
import { mkdir, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { findOrInstallChromium } from './chromium.mjs';
import { artifactsDir, run, runNode } from './command.mjs';
import { countTests, lastLine } from './testReport.mjs';

const browserTestsSkipped = process.env.BROWSER_TESTS === 'skip';

/** @typedef {import('./testReport.mjs').Count} Count */

/**
 * @param {string} title
 * @param {() => Promise<Count>} suite
 * @returns {Promise<Count>}
 */
async function inTurn(title, suite) {
  console.log(`\n── ${title}`);
  const startedAt = performance.now();
  /** @type {Count} */
  let count;
  try {
    count = await suite();
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    count = { passed: 0, failed: 1 };
  }
  const seconds = ((performance.now() - startedAt) / 1000).toFixed(1);
  console.log(`── ${title}: ${count.passed} passed, ${count.failed} failed in ${seconds} s`);
  return count;
}

/**
 * A tool that either agrees or does not counts as one check.
 *
 * @param {Promise<number>} exitCode
 * @returns {Promise<Count>}
 */
async function oneCheck(exitCode) {
  return (await exitCode) === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/**
 * @param {string} name of the report
 * @param {readonly string[]} projects
 * @param {Record<string, string>} [environment]
 */
async function vitest(name, projects, environment = {}) {
  const reportFile = path.join(artifactsDir, `${name}-tests.json`);
  // An old report must not be counted when this run dies before it writes its own.
  await rm(reportFile, { force: true });
  const exitCode = await runNode(
    'node_modules/vitest/vitest.mjs',
    [
      'run',
      ...projects.flatMap((project) => ['--project', project]),
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${reportFile}`,
    ],
    // A shell's own NODE_ENV would test React's production half, which knows no act().
    { NODE_ENV: 'test', ...environment },
  );
  const report = await readFile(reportFile, 'utf8').then(JSON.parse, () => null);
  return countTests(report, exitCode);
}

await mkdir(artifactsDir, { recursive: true });

/** @type {Count[]} */
const counts = [
  await inTurn('types', () => oneCheck(runNode('node_modules/typescript/bin/tsc', ['--noEmit', '-p', '.']))),
  await inTurn('lint', () =>
    oneCheck(
      run(process.execPath, ['node_modules/@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', '.']),
    ),
  ),
  await inTurn('nothing unused', () =>
    oneCheck(runNode('node_modules/knip/bin/knip.js', ['--config', '.knip.json', '--no-progress'])),
  ),
  await inTurn('no copies', () =>
    oneCheck(runNode('node_modules/jscpd/bin/jscpd', ['--config', '.jscpd.json'])),
  ),
  await inTurn('unit and component tests', () => vitest('unit', ['unit', 'component'])),
  await inTurn('production build', () => oneCheck(runNode('.scripts/build.mjs'))),
];
if (!browserTestsSkipped) {
  counts.push(
    await inTurn('browser tests', async () =>
      vitest('browser', ['browser', 'browser-alone'], { CHROMIUM_PATH: await findOrInstallChromium() }),
    ),
  );
}
counts.push(await inTurn('size budget', () => oneCheck(runNode('.scripts/size.mjs'))));

const total = {
  passed: counts.reduce((sum, { passed }) => sum + passed, 0),
  failed: counts.reduce((sum, { failed }) => sum + failed, 0),
};
if (total.failed > 0) process.exitCode = 1;
console.log(`\n${lastLine(total, browserTestsSkipped)}`);
