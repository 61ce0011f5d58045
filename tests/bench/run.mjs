// Bundles the benchmark, since this Node runs no TypeScript, and runs it in a process of its own.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const here = dirname(fileURLToPath(import.meta.url));
const outDir = mkdtempSync(join(tmpdir(), 'core-bench-'));
try {
  await build({
    configFile: false,
    logLevel: 'warn',
    build: { ssr: join(here, 'core.ts'), outDir, emptyOutDir: true, minify: false, target: 'es2022' },
  });
  const { status } = spawnSync(process.execPath, [join(outDir, 'core.js')], { stdio: 'inherit' });
  process.exitCode = status ?? 1;
} finally {
  rmSync(outDir, { recursive: true, force: true });
}
