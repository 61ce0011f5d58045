// The production build. A warning fails it: a warning that nobody has to read is one that nobody reads.
import { rm } from 'node:fs/promises';
import path from 'node:path';
import { isStarted, projectRoot } from './command.mjs';

export const distDir = path.join(projectRoot, 'dist');

/** @returns {Promise<number>} the number of warnings */
async function buildForProduction() {
  // Set before Vite is loaded: it keeps a value that it finds, and "test" would build React's development half.
  process.env.NODE_ENV = 'production';
  const { build, createLogger } = await import('vite');
  let warnings = 0;
  const logger = createLogger('info');
  const { warn, warnOnce } = logger;
  logger.warn = (message, options) => {
    warnings += 1;
    warn(message, options);
  };
  logger.warnOnce = (message, options) => {
    warnings += 1;
    warnOnce(message, options);
  };
  // Removed first: after a failed build there must be nothing old to serve or to test by mistake.
  await rm(distDir, { recursive: true, force: true });
  await build({ root: projectRoot, customLogger: logger });
  return warnings;
}

if (isStarted(import.meta.url)) {
  try {
    const warnings = await buildForProduction();
    if (warnings > 0) {
      console.error(`The build gave ${warnings} warning${warnings === 1 ? '' : 's'}: none is let through.`);
      process.exitCode = 1;
    }
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
