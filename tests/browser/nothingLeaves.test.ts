import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, inject, it } from 'vitest';
import { policyInHeader, policyInPage } from '../../.scripts/contentPolicy.mjs';
import { screens } from '../../src/views/routes.ts';
import { openProfile, type Profile } from './chromium.ts';
import { exportedRows, recordRun, setUpLaboratory, typeRun } from './steps.ts';

/** What the page was kept from doing by its policy, in words. */
async function hearViolations({ context }: Profile): Promise<string[]> {
  const heard: string[] = [];
  await context.exposeFunction('hearViolation', (what: string) => void heard.push(what));
  await context.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI, sample }) => {
      const { hearViolation } = window as unknown as { hearViolation: (what: string) => void };
      hearViolation(`${effectiveDirective}: ${blockedURI} ${sample}`);
    });
  });
  return heard;
}

/** Opens every screen and every record that is listed there. */
async function tour(page: Page, look = async (_place: string) => {}) {
  for (const { word } of screens) {
    await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: word }).click();
    await page.getByRole('main').waitFor();
    await page.waitForLoadState('networkidle');
    await look(word);
    const listed = page.locator('main .choose-list').locator('a, button');
    for (let index = 0; index < (await listed.count()); index++) {
      await listed.nth(index).click();
      await page.getByRole('main').waitFor();
      await look(`${word} ${index}`);
    }
  }
}

/** The visible texts whose second letter stands to the left of the first, though nothing in them asks for that. */
function turnedTexts(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const turned: string[] = [];
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
      const text = node.textContent ?? '';
      const start = text.search(/[A-Za-z]{2}/);
      if (start < 0 || /[\u202a-\u202e\u2066-\u2069]/.test(text)) continue;
      const [first, second] = [start, start + 1].map((at) => {
        const letter = document.createRange();
        letter.setStart(node, at);
        letter.setEnd(node, at + 1);
        return letter.getBoundingClientRect();
      });
      if (first && second && first.width > 0 && second.left < first.left) turned.push(text);
    }
    return turned;
  });
}

let profile: Profile;
beforeEach(async () => {
  profile = await openProfile();
});
afterEach(() => profile.close());

describe('the policy', () => {
  it('comes with the page itself and with every answer of the server', async () => {
    const page = await fetch(`${inject('baseUrl')}/`);
    const text = await page.text();
    const inPage = /<meta http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(text)?.[1];
    expect(inPage?.replaceAll('&#39;', "'")).toBe(policyInPage);
    // What stands before it in the page would not be held to it.
    expect(text.indexOf('Content-Security-Policy')).toBeLessThan(text.search(/<script|<link|<style/));
    const script = /src="\.\/(assets\/[^"]+\.js)"/.exec(text)?.[1];
    for (const answer of [page, await fetch(`${inject('baseUrl')}/${script}`)]) {
      expect(answer.status).toBe(200);
      expect(answer.headers.get('content-security-policy')).toBe(policyInHeader);
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
      expect(answer.headers.get('referrer-policy')).toBe('no-referrer');
    }
    expect(policyInHeader).toContain("default-src 'none'");
    expect(policyInHeader).toContain("frame-ancestors 'none'");
    expect(policyInHeader).not.toMatch(/unsafe|\*|https?:|data:|blob:/);
  });

  it('keeps the page from running text, writing script into itself and reaching out', async () => {
    const { page } = profile;
    const heard = await hearViolations(profile);
    await page.goto(profile.at('/bench'));
    await page.getByRole('heading').first().waitFor();
    expect(heard).toEqual([]);
    const outcome = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "written into the page"';
      document.body.append(script);
      const image = document.createElement('img');
      image.setAttribute('onerror', 'document.title = "handled in the page"');
      image.src = 'data:,none';
      document.body.append(image);
      const reached = await fetch('/mark.svg').then(
        () => true,
        () => false,
      );
      return { title: document.title, reached };
    });
    expect(outcome).toEqual({ title: 'Diffusion QC Logbook', reached: false });
    // Each is heard twice, by the page's own policy and by the server's.
    const refused = () => [...new Set(heard.map((what) => what.split(':')[0]))].sort();
    await expect.poll(refused).toEqual(['connect-src', 'img-src', 'script-src-attr', 'script-src-elem']);
    // The browser has said the same on its console, and there is nothing else on it.
    expect(
      profile.noise.every((what) => /Content Security Policy|Failed to (load|fetch)|Refused/.test(what)),
    ).toBe(true);
    profile.forgiveNoise();
  });
});

describe('a tour of every screen', () => {
  it.each([
    ['the own logbook', ''],
    ['the demonstration', '?demonstration'],
  ])('of %s asks nothing of anyone else and breaks no policy', async (_, search) => {
    const { page } = profile;
    const heard = await hearViolations(profile);
    const asked: string[] = [];
    profile.context.on('request', (request) => asked.push(new URL(request.url()).origin));
    if (search === '') {
      await setUpLaboratory(profile);
      await typeRun(page, { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' });
      await recordRun(page);
    } else {
      await page.goto(profile.at('/charts', search));
      await page.getByRole('img', { name: /VA/ }).first().waitFor();
    }
    await tour(page);
    expect((await exportedRows(page)).length).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Check every entry' }).click();
    await page.getByText('Every entry fits its hash').waitFor();
    expect(asked.length).toBeGreaterThan(10);
    const elsewhere = asked.filter(
      (origin) => origin !== new URL(profile.at('/')).origin && origin !== 'null',
    );
    expect(elsewhere).toEqual([]);
    expect(heard).toEqual([]);
  });
});

describe('what people type', () => {
  const markup = '<img src=x onerror="document.title=\'run\'"><b>bold</b>';
  const formula = "=cmd|' /C calc'!A0";
  const turned = '\u202eturned by its first mark';

  it('stands as text on every screen, is never markup, and leaves the words around it as they are', async () => {
    const { page } = profile;
    await page.goto(profile.at('/'));
    await page.getByLabel('Name').fill(markup);
    await page.getByLabel('Initials').fill('<b>');
    await page.getByLabel('Role').selectOption('supervisor');
    await page.getByRole('button', { name: 'Add me' }).click();
    await page.getByRole('heading', { name: '2. The syringe' }).waitFor();
    await page.getByLabel('Name').fill(formula);
    await page.getByLabel('Dead space').fill('110');
    await page.getByRole('button', { name: 'Add syringe' }).click();
    await page.getByRole('heading', { name: '3. The analyzer' }).waitFor();
    await page.getByLabel('Name').fill(turned);
    await page.getByRole('button', { name: 'Add analyzer' }).click();
    await page.getByRole('heading', { name: 'Record a run' }).waitFor();
    await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: turned });
    await typeRun(page, { temperature: '22', pressure: '760', va: '3.45', dlco: '0.12' });
    await page.getByLabel('Comment').fill(markup);
    await recordRun(page);
    const turnedWords: string[] = [];
    await tour(page, async (place) => {
      expect(await page.locator('main img, main b').count(), place).toBe(0);
      turnedWords.push(...(await turnedTexts(page)).map((text) => `${place}: ${text}`));
    });
    expect(turnedWords).toEqual([]);
    expect(await page.title()).toMatch(/ – Diffusion QC Logbook$/);

    await page.getByRole('link', { name: 'Equipment', exact: true }).click();
    for (const text of [markup, formula, turned]) await page.getByText(text).first().waitFor();
    const [row] = await exportedRows(page);
    expect(row).toMatchObject({
      syringe: `'${formula}`,
      technologist_name: markup,
      comment: markup,
      analyzer: turned,
    });
  });
});
