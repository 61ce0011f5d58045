import type { TestProject } from 'vitest/node';
import { ensureFreshBuild } from '../../.scripts/freshBuild.mjs';
import { serveBuild } from '../../.scripts/serve.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the built app is served during the browser tests, without a closing slash. */
    baseUrl: string;
  }
}

/** Serves the build for all browser tests; makes it first when it is missing or older than its sources. */
export default async function buildAndServe(project: TestProject) {
  await ensureFreshBuild();
  const server = await serveBuild(0);
  project.provide('baseUrl', server.url);
  return () => server.close();
}
