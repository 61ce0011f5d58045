// npm start: builds the logbook and serves it on the one address where its data lives.
import { runNode } from './command.mjs';
import { isOwnLogbook, isPortTaken } from './port.mjs';

const port = 4310;
const address = `http://127.0.0.1:${port}`;

async function refuse() {
  if (await isOwnLogbook(port)) {
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
  if (await isPortTaken(port)) {
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
    if (!(await isPortTaken(port))) throw error;
    await refuse();
  }
}

await start();
