import axeCore from 'axe-core';
import type { Page } from 'playwright-core';

/** Success criteria of WCAG 2.2, levels A and AA; each tag holds only what its version added. */
const wcag22AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export interface Violation {
  rule: string;
  help: string;
  where: string[];
}

/** The rules that another colour scheme can break where the first has kept them all. */
const rulesOfColour = ['color-contrast', 'link-in-text-block'];

/**
 * What breaks WCAG 2.2 AA on the page as it stands, as far as a program can tell; `expect(…).toEqual([])`. `only`: in the
 * second colour scheme of a page that was looked at in full.
 */
export async function axe(page: Page, only?: 'colour'): Promise<Violation[]> {
  // Text that is still fading in is paler than it will be.
  await page.evaluate(() => Promise.all(document.getAnimations().map(({ finished }) => finished)));
  // Half a megabyte: put into the page once, and again after a reload.
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeCore.source);
  const runOnly =
    only === 'colour'
      ? { type: 'rule' as const, values: rulesOfColour }
      : { type: 'tag' as const, values: wcag22AA };
  return page.evaluate(async (asked) => {
    // Run inside the page, where the line above has put axe on the window.
    const { axe } = window as unknown as { axe: typeof axeCore };
    const { violations } = await axe.run(document, {
      runOnly: asked,
      // Off in axe's defaults, and the one rule of its own that WCAG 2.2 AA adds.
      rules: { 'target-size': { enabled: true } },
      resultTypes: ['violations'],
    });
    return violations.map(({ id, help, nodes }) => ({
      rule: id,
      help,
      where: nodes.map((node) => `${node.target.join(' ')}: ${node.failureSummary ?? ''}`),
    }));
  }, runOnly);
}
