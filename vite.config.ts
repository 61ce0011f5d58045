import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';
import { contentPolicyInPage } from './.scripts/contentPolicy.mjs';
import { offlineWorker } from './.scripts/offline.mjs';

/** A warning fails the build, and how long a plugin took says more about the computer than about the build. */
const checks = { bundlerTimings: false };

const inTheBrowser = {
  environment: 'node',
  globalSetup: 'tests/browser/buildAndServe.ts',
  testTimeout: 120_000,
  hookTimeout: 120_000,
} as const;

/** What is held against a clock in the browser shares the computer with no other test. */
const alone = ['tests/browser/keyboardRun.test.ts'];

/** In ms. What a test hangs on shows all the same, and a busy computer fails none. */
const patience = 20_000;

export default defineConfig({
  base: './',
  // Routes live in the hash, so an unknown path is a mistake: a page in place of a missing script would hide it.
  appType: 'mpa',
  plugins: [react(), contentPolicyInPage(), offlineWorker()],
  // Dexie's build for today's browsers is 1.7 kB smaller than the one that its bare name leads to.
  resolve: { alias: [{ find: /^dexie$/, replacement: 'dexie/dist/modern/dexie.mjs' }] },
  server: { host: '127.0.0.1', port: 4311, strictPort: true },
  // The size budget reads the manifest (what loads what) and the source maps (which packages a file holds).
  build: {
    target: 'es2022',
    manifest: true,
    sourcemap: true,
    chunkSizeWarningLimit: 700,
    // The page names the files that each later screen needs first: of a hundred names only the style sheets' are worth their room.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_file, files) => files.filter((file) => file.endsWith('.css')),
    },
    rolldownOptions: {
      checks,
      // Nothing in core runs when it is loaded, so what only a later screen uses need not come with its index.
      treeshake: { moduleSideEffects: (id) => !id.includes('/src/core/') },
      // What the page loads first is one file, and so is what many later screens share: in many small ones it packs worse.
      output: {
        codeSplitting: {
          groups: [
            { name: 'page', tags: ['$initial'], priority: 2 },
            { name: 'shared', test: /\/src\//, minShareCount: 3, priority: 1 },
          ],
        },
      },
    },
  },
  // A worker is a module like every other file of the build.
  worker: { format: 'es', rolldownOptions: { checks } },
  test: {
    // A describe.only that slips in would silence every other test of its file.
    allowOnly: false,
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/endurance/**'],
          // Loaded once for all files of a worker, which is half of their time. So no file may count on a module that is new to it.
          isolate: false,
          testTimeout: patience,
        },
      },
      {
        extends: true,
        test: {
          name: 'component',
          environment: 'jsdom',
          include: ['tests/views/**/*.test.tsx'],
          setupFiles: ['tests/views/setup.ts'],
          testTimeout: patience,
        },
      },
      {
        extends: true,
        test: {
          ...inTheBrowser,
          name: 'browser',
          include: ['tests/browser/**/*.test.ts', 'tests/endurance/**/*.test.ts'],
          exclude: alone,
          maxWorkers: 2,
        },
      },
      {
        extends: true,
        test: {
          ...inTheBrowser,
          name: 'browser-alone',
          include: alone,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
