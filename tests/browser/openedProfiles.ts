import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import { openProfile, type Profile } from './chromium.ts';

/**
 * For a file of tests that open several profiles and exchange files between them: `opened` gives a new profile, `folder`
 * an empty folder of the test's own. After each test the folder goes, and every profile is closed, which fails the test
 * where there was noise.
 */
export function openedProfiles() {
  const open: Profile[] = [];
  let dir = '';
  beforeEach(async () => {
    dir = await mkdtemp(path.join(tmpdir(), 'logbook-files-'));
  });
  afterEach(async () => {
    await rm(dir, { recursive: true, force: true });
    for (const profile of open.splice(0)) await profile.close();
  });
  return {
    folder: () => dir,
    async opened(): Promise<Profile> {
      const profile = await openProfile();
      open.push(profile);
      return profile;
    },
  };
}
