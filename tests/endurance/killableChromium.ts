import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type Browser, chromium, type Page } from 'playwright-core';
import { findChromium } from '../../.scripts/chromium.mjs';

export interface KillableChromium {
  page: Page;
  /** Ends all its processes with SIGKILL, as a power cut would as far as the programs are concerned. */
  kill(): void;
  /** Resolves when its processes are gone, however they ended. */
  ended: Promise<unknown>;
  close(): Promise<void>;
}

/** The address at which a Chromium that was just started can be driven, which it tells on its error output. */
async function drivingAddress({ stderr }: ChildProcess): Promise<string> {
  if (stderr === null) throw new Error('Chromium has no error output.');
  for await (const line of createInterface({ input: stderr })) {
    const address = /DevTools listening on (ws:\S+)/.exec(line)?.[1];
    if (address !== undefined) {
      stderr.resume(); // nobody reads on, and a full pipe would stop it
      return address;
    }
  }
  throw new Error('Chromium ended before it could be driven.');
}

/** A real Chromium on a profile whose processes the test may kill: a group of its own, so that none of them is left. */
export async function startChromium(profileDir: string): Promise<KillableChromium> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('No Chromium found: see what .scripts/chromium.mjs says.');
  const child = spawn(
    executablePath,
    [
      '--headless=new',
      '--no-sandbox', // root, which most build machines are, may not start one
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--hide-crash-restore-bubble',
      '--remote-debugging-port=0',
      `--user-data-dir=${profileDir}`,
      'about:blank',
    ],
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const ended = once(child, 'exit');
  const { pid } = child;
  if (pid === undefined) throw new Error('Chromium could not be started.');
  const kill = () => {
    // Minus: the whole group. It may be gone already.
    if (child.exitCode === null && child.signalCode === null) process.kill(-pid, 'SIGKILL');
  };
  try {
    const browser: Browser = await chromium.connectOverCDP(await drivingAddress(child));
    const context = browser.contexts()[0];
    const page = context?.pages()[0] ?? (await context?.newPage());
    if (page === undefined) throw new Error('Chromium has no page.');
    const close = async () => {
      const devTools = await browser.newBrowserCDPSession();
      await devTools.send('Browser.close').catch(() => undefined); // the answer may not come back any more
      await ended;
    };
    return { page, kill, ended, close };
  } catch (error) {
    kill();
    throw error;
  }
}
