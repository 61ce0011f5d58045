import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { axe } from './axe.ts';
import { makeProfileDir, openProfile, type Profile, removeProfile } from './chromium.ts';

/** A page of the app's own origin without the app, for what the tools themselves must notice. */
async function openBlank(profile: Profile, html: string) {
  await profile.page.route('**/blank', (route) => route.fulfill({ contentType: 'text/html', body: html }));
  await profile.page.goto(new URL('/blank', profile.at('/')).href);
}

const soundPage = '<!doctype html><html lang="en"><title>Blank</title><main><h1>Blank</h1></main></html>';

describe('what the browser tests notice', () => {
  let profileDir: string;
  let profile: Profile;
  beforeEach(async () => {
    profileDir = await makeProfileDir();
    profile = await openProfile(profileDir);
  });
  afterEach(async () => {
    await profile.context.close();
    await removeProfile(profileDir);
  });

  it('stays quiet on a sound page', async () => {
    await openBlank(profile, soundPage);
    profile.expectQuiet();
    expect(await axe(profile.page)).toEqual([]);
  });

  it('hears a console warning, a console error and an uncaught error', async () => {
    await openBlank(
      profile,
      `${soundPage}<script>
        console.warn('made-up warning');
        console.error('made-up error');
        throw new Error('made-up fault');
      </script>`,
    );
    await expect.poll(() => profile.noise).toHaveLength(3);
    expect([...profile.noise].sort()).toEqual([
      'console error: made-up error',
      'console warning: made-up warning',
      'page error: made-up fault',
    ]);
    expect(() => profile.expectQuiet()).toThrow();
  });

  it('hears a request to another origin', async () => {
    await profile.context.route('http://elsewhere.invalid/**', (route) => route.fulfill({ body: '' }));
    await openBlank(profile, `${soundPage}<img alt="" src="http://elsewhere.invalid/dot.png">`);
    expect(profile.noise).toContain('request to http://elsewhere.invalid');
  });

  it('sees text that is too pale and a target that is too small', async () => {
    // WCAG 2.2: 1.4.3 asks for a contrast of 4.5:1 (#999 on white has 2.85:1); 2.5.8 for targets of 24 by 24 px.
    await openBlank(
      profile,
      `${soundPage}<p style="color:#999;background:#fff">Pale</p>
       <button style="all:unset;display:inline-block;width:10px;height:10px" aria-label="a">a</button><button
        style="all:unset;display:inline-block;width:10px;height:10px" aria-label="b">b</button>`,
    );
    const rules = (await axe(profile.page)).map(({ rule }) => rule);
    expect(rules).toContain('color-contrast');
    expect(rules).toContain('target-size');
  });

  it('finds the database again when the same profile is opened anew', async () => {
    await openBlank(profile, soundPage);
    await profile.page.evaluate(() => localStorage.setItem('kept', 'yes'));
    await profile.context.close();
    profile = await openProfile(profileDir);
    await openBlank(profile, soundPage);
    expect(await profile.page.evaluate(() => localStorage.getItem('kept'))).toBe('yes');
  });
});

describe('the server of the build', () => {
  it('leads every other name of this computer to the one address where the data lives', async () => {
    const { port } = new URL(inject('baseUrl'));
    const answer = await fetch(`http://localhost:${port}/?demonstration`, { redirect: 'manual' });
    expect(answer.status).toBe(307);
    expect(answer.headers.get('location')).toBe(`http://127.0.0.1:${port}/?demonstration`);
  });

  it('gives no page in place of a script that is missing', async () => {
    expect((await fetch(`${inject('baseUrl')}/assets/gone.js`)).status).toBe(404);
  });
});
