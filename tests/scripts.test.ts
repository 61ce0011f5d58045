import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer as createWebServer } from 'node:http';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../.scripts/chromium.mjs';
import { projectRoot } from '../.scripts/command.mjs';
import { policyOfWorker, securityHeaders } from '../.scripts/contentPolicy.mjs';
import { filesToKeep, workerFile, writeWorker } from '../.scripts/offline.mjs';
import { isOwnLogbook, isPortTaken } from '../.scripts/port.mjs';
import { benchRoots, staticClosure } from '../.scripts/size.mjs';
import { countTests, lastLine } from '../.scripts/testReport.mjs';

const file = (
  statuses: string[],
  status = statuses.every((one) => one === 'passed') ? 'passed' : 'failed',
) => ({
  name: 'a.test.ts',
  status,
  assertionResults: statuses.map((one) => ({ status: one })),
});

describe('countTests', () => {
  it('counts what passed and what failed', () => {
    const report = { success: false, testResults: [file(['passed', 'failed']), file(['passed'])] };
    expect(countTests(report, 1)).toEqual({ passed: 2, failed: 1 });
  });

  it('counts every test that did not run as failed', () => {
    const report = { success: true, testResults: [file(['passed', 'skipped', 'pending', 'todo'], 'passed')] };
    expect(countTests(report, 0)).toEqual({ passed: 1, failed: 3 });
  });

  it('counts a file that could not be loaded, or that holds no test, as one failure', () => {
    const report = {
      success: false,
      testResults: [file(['passed']), file([], 'failed'), file([], 'passed')],
    };
    expect(countTests(report, 1)).toEqual({ passed: 1, failed: 2 });
  });

  it.each([
    ['no report', null, 0, 0],
    ['no test at all', { success: true, testResults: [] }, 0, 0],
    ['a bad exit code without a failed test', { success: true, testResults: [file(['passed'])] }, 1, 1],
    ['an error outside every test', { success: false, testResults: [file(['passed'])] }, 0, 1],
  ])('counts %s as a failure', (_what, report, exitCode, passed) => {
    expect(countTests(report, exitCode)).toEqual({ passed, failed: 1 });
  });
});

describe('lastLine', () => {
  it('is the count, and says when the browser tests were left out', () => {
    expect(lastLine({ passed: 12, failed: 0 }, false)).toBe('12 passed, 0 failed');
    expect(lastLine({ passed: 3, failed: 1 }, true)).toBe(
      '3 passed, 1 failed (browser tests skipped: BROWSER_TESTS=skip)',
    );
  });
});

describe('what the bench form loads', () => {
  const manifest = {
    'index.html': {
      file: 'a.js',
      isEntry: true,
      imports: ['_react.js'],
      dynamicImports: ['src/views/charts/c.tsx'],
    },
    '_react.js': { file: 'r.js', imports: ['_deep.js'] },
    '_deep.js': { file: 'd.js', imports: ['_react.js'] },
    'src/views/charts/c.tsx': { file: 'c.js', imports: ['index.html'] },
    'src/views/bench/b.tsx': { file: 'b.js', imports: ['_form.js'] },
    '_form.js': { file: 'f.js' },
  };

  it('is the entry, a bench loaded apart, and their static imports to the last', () => {
    const reached = staticClosure(manifest, benchRoots(manifest));
    expect([...reached].sort()).toEqual([
      '_deep.js',
      '_form.js',
      '_react.js',
      'index.html',
      'src/views/bench/b.tsx',
    ]);
  });

  it('cannot be told from a manifest without the entry, or with a hole', () => {
    expect(() => benchRoots({})).toThrow('index.html');
    expect(() => benchRoots({ 'index.html': { file: 'a.js' } })).toThrow('not an entry');
    expect(() =>
      staticClosure({ 'index.html': { file: 'a.js', imports: ['_gone.js'] } }, ['index.html']),
    ).toThrow('_gone.js');
  });
});

describe('findChromium', () => {
  let folder: string;
  const program = (name: string) => path.join(folder, name);
  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'find-chromium-'));
    mkdirSync(program('chromium'));
    for (const name of ['google-chrome', 'chromium-browser', 'plain.txt']) writeFileSync(program(name), '');
    for (const name of ['google-chrome', 'chromium-browser']) chmodSync(program(name), 0o755);
    chmodSync(program('plain.txt'), 0o644);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('takes the one that CHROMIUM_PATH names', () => {
    expect(findChromium({ CHROMIUM_PATH: program('google-chrome'), PATH: '' })).toBe(
      program('google-chrome'),
    );
  });

  it('refuses a CHROMIUM_PATH where no program can be run', () => {
    for (const name of ['nothing', 'chromium', 'plain.txt']) {
      expect(() => findChromium({ CHROMIUM_PATH: program(name) })).toThrow(program(name));
    }
  });

  it('looks along PATH, Chromium first, and passes over a folder of that name', () => {
    expect(findChromium({ PATH: folder })).toBe(program('chromium-browser'));
    expect(findChromium({ CHROMIUM_PATH: '', PATH: folder })).toBe(program('chromium-browser'));
  });
});

describe('the port of the logbook', () => {
  const running: Server[] = [];
  /** Starts a server on any free port, and gives the port. */
  const listen = (server: Server, host: string) =>
    new Promise<number>((resolve) => {
      running.push(server);
      server.listen(0, host, () => {
        const address = server.address();
        resolve(address !== null && typeof address === 'object' ? address.port : 0);
      });
    });
  const serve = (page: string) => createWebServer((_request, response) => response.end(page));
  const end = (server: Server) => new Promise((resolve) => server.close(resolve));
  afterEach(() => Promise.all(running.splice(0).map(end)));

  it.each(['127.0.0.1', '0.0.0.0'])(
    'is taken while a program listens on %s, and free afterwards',
    async (host) => {
      const server = createServer();
      const port = await listen(server, host);
      expect(await isPortTaken(port)).toBe(true);
      running.length = 0;
      await end(server);
      expect(await isPortTaken(port)).toBe(false);
    },
  );

  it('is known as our own by the title that index.html gives', async () => {
    const page = readFileSync(path.join(projectRoot, 'index.html'), 'utf8');
    expect(await isOwnLogbook(await listen(serve(page), '127.0.0.1'))).toBe(true);
  });

  it('is not our own when another page, silence or nothing answers', async () => {
    expect(await isOwnLogbook(await listen(serve('<title>Another</title>'), '127.0.0.1'))).toBe(false);
    const silent = createServer((socket) => socket.resume());
    const port = await listen(silent, '127.0.0.1');
    expect(await isOwnLogbook(port, 100)).toBe(false);
    running.splice(running.indexOf(silent), 1);
    await end(silent);
    expect(await isOwnLogbook(port)).toBe(false);
  });
});

describe('what is kept for the time without a server', () => {
  let build: string;
  const put = (name: string, text: string) => {
    mkdirSync(path.dirname(path.join(build, name)), { recursive: true });
    writeFileSync(path.join(build, name), text);
  };
  const version = async () => {
    await writeWorker(build);
    return /const version = "(\w+)"/.exec(readFileSync(path.join(build, workerFile), 'utf8'))?.[1];
  };
  beforeAll(() => {
    build = mkdtempSync(path.join(tmpdir(), 'kept-files-'));
    put('index.html', 'abc');
    for (const name of ['assets/a.js', 'assets/a.js.map', '.vite/manifest.json', '.htaccess'])
      put(name, name);
  });
  afterAll(() => rmSync(build, { recursive: true }));

  it('is every file that a browser asks for, each by its hash, and the page by its folder', async () => {
    await writeWorker(build);
    const kept = await filesToKeep(build);
    expect(kept.map(([address]) => address)).toEqual(['assets/a.js', './']);
    // SHA-256 of "abc": NIST FIPS 180-2, appendix B.1, in base64 (recalled).
    expect(kept[1]?.[1]).toBe('sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=');
  });

  it('is a new version where one byte is another, and none where nothing changed', async () => {
    const first = await version();
    expect(first).toMatch(/^[0-9a-f]{16}$/);
    expect(await version()).toBe(first);
    put('assets/a.js', 'another');
    expect(await version()).not.toBe(first);
  });
});

describe('the page on hosting', () => {
  const page = readFileSync(path.join(projectRoot, 'public', 'hosting.md'), 'utf8');

  it('gives for both servers every header that the logbook’s own server sends', () => {
    for (const [header, value] of Object.entries(securityHeaders)) {
      expect(page).toContain(`add_header ${header} "${value}"`);
      expect(page).toContain(`Header always set ${header} "${value}"`);
    }
    expect(page).toContain(`add_header Content-Security-Policy "${policyOfWorker}"`);
    expect(page).toContain(`Header always set Content-Security-Policy "${policyOfWorker}"`);
  });
});
