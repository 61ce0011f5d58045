import { spawn } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of package.json: every script works from any current directory. */
export const projectRoot = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');

/** Everything the scripts write for people to look at; git ignores it. */
export const artifactsDir = path.join(projectRoot, '.artifacts');

/**
 * Runs a program in the project's root with its output passed straight through.
 * A program that cannot be started, or that a signal ended, counts as code 1: neither is a success.
 *
 * @param {string} command
 * @param {readonly string[]} args
 * @param {Record<string, string>} [environment] added to this process's own
 * @returns {Promise<number>} the exit code
 */
export function run(command, args, environment = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: projectRoot,
      env: { ...process.env, ...environment },
      stdio: ['ignore', 'inherit', 'inherit'],
    });
    child.on('error', (error) => {
      console.error(`${command} could not be started: ${error.message}`);
      resolve(1);
    });
    child.on('close', (code) => resolve(code ?? 1));
  });
}

/**
 * Runs a script with the Node that runs this one.
 *
 * @param {string} script path from the project's root
 * @param {readonly string[]} [args]
 * @param {Record<string, string>} [environment]
 */
export function runNode(script, args = [], environment = {}) {
  return run(process.execPath, [path.join(projectRoot, script), ...args], environment);
}

/**
 * Whether this module is the one that was started, not one that another imported.
 *
 * @param {string} moduleUrl the module's `import.meta.url`
 */
export function isStarted(moduleUrl) {
  const started = process.argv[1];
  return started !== undefined && path.resolve(started) === fileURLToPath(moduleUrl);
}
