import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { expect, inject } from 'vitest';
import { findChromium } from '../../.scripts/chromium.mjs';
import { artifactsDir } from '../../.scripts/command.mjs';

/**
 * Chromium's own errands are switched off: each would be a request that the app did not make. The sandbox is off
 * because root, which most build machines are, may not start one; only our own build is ever opened.
 */
const switches = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Profile {
  readonly profileDir: string;
  readonly context: BrowserContext;
  readonly page: Page;
  /** The address of a hash route of the served build, as in `at('/bench')` or `at('/charts', '?demonstration')`. */
  at(route: string, search?: string): string;
  /** Console errors and warnings, page errors, and requests to another origin, in words, up to now. */
  readonly noise: readonly string[];
  /** Fails the test when there was any noise. */
  expectQuiet(): void;
  /** Forgets the noise so far, which the test has looked at: it made it on purpose. */
  forgiveNoise(): void;
  /** Ends the browser as a person would, and fails the test when there was noise. A profile of its own goes with it. */
  close(): Promise<void>;
}

/** A folder for a profile that outlives its browser; remove it with `removeProfile`. */
export const makeProfileDir = () => mkdtemp(path.join(tmpdir(), 'logbook-profile-'));

/** Chromium may still be writing its last files when it has said goodbye, hence the retries. */
export const removeProfile = (profileDir: string) =>
  rm(profileDir, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });

interface Served {
  /** Where the app is served, without a closing slash: the build of all tests where nothing is said. */
  baseUrl?: string;
  /** Whether the program is kept in the browser. Otherwise each test begins with what its server gives. */
  isKept?: boolean;
}

/**
 * A real Chromium on a profile: the same folder again is the same browser after a restart, with its databases.
 * Without a folder the profile is new and is removed on closing.
 */
export async function openProfile(
  profileDir?: string,
  { baseUrl = inject('baseUrl'), isKept = false }: Served = {},
): Promise<Profile> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('No Chromium found: see what .scripts/chromium.mjs says.');
  const dir = profileDir ?? (await makeProfileDir());
  const context = await chromium.launchPersistentContext(dir, {
    executablePath,
    headless: true,
    args: switches,
    acceptDownloads: true,
    viewport: { width: 1440, height: 900 },
  });
  const noise: string[] = [];
  if (!isKept)
    await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serviceWorker'));
  listen(context, new URL(baseUrl).origin, noise);
  const page = context.pages()[0] ?? (await context.newPage());
  const expectQuiet = () => expect(noise, 'console, page errors, foreign requests').toEqual([]);
  return {
    profileDir: dir,
    context,
    page,
    noise,
    expectQuiet,
    forgiveNoise: () => {
      noise.length = 0;
    },
    at: (route, search = '') => `${baseUrl}/${search}#${route}`,
    close: async () => {
      await context.close();
      if (profileDir === undefined) await removeProfile(dir);
      expectQuiet();
    },
  };
}

function listen(context: BrowserContext, ownOrigin: string, noise: string[]) {
  context.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') {
      noise.push(`console ${message.type()}: ${message.text()}`);
    }
  });
  context.on('weberror', (webError) => noise.push(`page error: ${webError.error().message}`));
  context.on('request', (request) => {
    const url = new URL(request.url());
    // Not on the network: what the page made itself, and the browser's own empty page.
    if (['data:', 'blob:', 'about:'].includes(url.protocol)) return;
    if (url.origin !== ownOrigin) noise.push(`request to ${url.origin}`);
  });
}

/** Puts a picture of the page where people look at it, `.artifacts/screens/<name>.png`. */
export async function shoot(page: Page, name: string) {
  const screens = path.join(artifactsDir, 'screens');
  await mkdir(screens, { recursive: true });
  await page.screenshot({ path: path.join(screens, `${name}.png`), fullPage: true });
}
