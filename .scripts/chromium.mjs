// Finds the Chromium that the browser tests drive, or installs Debian's. Started by itself it prints the path.
import { accessSync, constants, existsSync, statSync } from 'node:fs';
import path from 'node:path';
import { isStarted, run } from './command.mjs';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

const usualPlaces = [
  '/usr/bin',
  '/usr/local/bin',
  '/snap/bin',
  '/opt/homebrew/bin',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** @param {string} file */
function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

/**
 * @param {NodeJS.ProcessEnv} [environment]
 * @returns {string | null}
 * @throws {Error} when CHROMIUM_PATH names something that cannot be run: another browser in its place would surprise
 */
export function findChromium(environment = process.env) {
  const named = environment.CHROMIUM_PATH;
  if (named !== undefined && named !== '') {
    if (canRun(named)) return named;
    throw new Error(`CHROMIUM_PATH is ${named}, and no program can be run there. Correct it or unset it.`);
  }
  const onPath = (environment.PATH ?? '').split(path.delimiter).filter((folder) => folder !== '');
  const folders = [...onPath, ...usualPlaces];
  const candidates = folders.flatMap((place) => [place, ...names.map((name) => path.join(place, name))]);
  return candidates.find(canRun) ?? null;
}

/** @returns {Promise<string>} */
export async function findOrInstallChromium() {
  const found = findChromium();
  if (found !== null) return found;
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    console.error("No Chromium found: installing Debian's.");
    const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
    const code =
      (await run('apt-get', ['update', '-qq'], quiet)) ||
      (await run('apt-get', ['install', '-y', '-qq', 'chromium'], quiet));
    const installed = code === 0 ? findChromium() : null;
    if (installed !== null) return installed;
  }
  throw new Error(
    'The browser tests need Chromium, and none was found. Install it (Debian, Ubuntu: "apt-get install chromium" as root; ' +
      'macOS: "brew install --cask chromium"), or set CHROMIUM_PATH to a Chromium or Chrome that is already here. ' +
      'BROWSER_TESTS=skip leaves the browser tests out.',
  );
}

if (isStarted(import.meta.url)) {
  try {
    console.log(await findOrInstallChromium());
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
