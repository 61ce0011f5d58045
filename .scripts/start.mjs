// npm start: builds the logbook and serves it on the one address where its data lives.
import { createConnection, createServer } from 'node:net';
import { runNode } from './command.mjs';

const host = '127.0.0.1';
const port = 4310;
const address = `http://${host}:${port}`;

/**
 * Asked in both ways: a program that listens on all addresses may leave this one free to bind on some systems,
 * and would still be the one that a browser might reach.
 */
async function isPortTaken() {
  const answers = await new Promise((resolve) => {
    const probe = createConnection({ host, port, timeout: 2000 });
    const settle = (/** @type {boolean} */ taken) => {
      probe.destroy();
      resolve(taken);
    };
    probe.on('connect', () => settle(true));
    probe.on('timeout', () => settle(true));
    probe.on('error', () => settle(false));
  });
  if (answers) return true;
  return new Promise((resolve) => {
    const probe = createServer();
    probe.on('error', () => resolve(true));
    probe.listen({ host, port, exclusive: true }, () => probe.close(() => resolve(false)));
  });
}

async function isOwnLogbook() {
  try {
    const page = await fetch(`${address}/`, { signal: AbortSignal.timeout(3000) });
    return (await page.text()).includes('<title>Diffusion QC Logbook</title>');
  } catch {
    return false;
  }
}

async function refuse() {
  if (await isOwnLogbook()) {
    console.error(`The Diffusion QC Logbook is already running at ${address}`);
    console.error('Open that address, or end the running one first (Ctrl-C in its window).');
  } else {
    console.error(`Another program on this computer has port ${port}, so the logbook cannot start.`);
    console.error('End that program, then start again.');
  }
  console.error(
    'No other port is tried: the browser ties the data to the address, and another port would show',
  );
  console.error('a different, empty logbook.');
  process.exitCode = 1;
}

async function serve() {
  const { serveBuild } = await import('./serve.mjs');
  const server = await serveBuild(port);
  console.log('The logbook is open on this computer at');
  console.log(address);
  console.log('Always use this address. Ctrl-C ends the server; the records stay in the browser.');
  const end = () => {
    // A browser tab keeps its connection open, and closing would wait for it.
    void server.close();
    process.exit(0);
  };
  process.once('SIGINT', end);
  process.once('SIGTERM', end);
}

async function start() {
  if (await isPortTaken()) {
    await refuse();
    return;
  }
  if ((await runNode('.scripts/build.mjs')) !== 0) {
    console.error('The build failed, so nothing is served.');
    process.exitCode = 1;
    return;
  }
  try {
    await serve();
  } catch (error) {
    // Somebody may have taken the port while the build ran.
    if (!(await isPortTaken())) throw error;
    await refuse();
  }
}

await start();
