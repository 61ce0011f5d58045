import axeCore from 'axe-core';
import type { Page } from 'playwright-core';

/** Success criteria of WCAG 2.2, levels A and AA; each tag holds only what its version added. */
const wcag22AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export interface Violation {
  rule: string;
  help: string;
  where: string[];
}

/** What breaks WCAG 2.2 AA on the page as it stands, as far as a program can tell; `expect(…).toEqual([])`. */
export async function axe(page: Page): Promise<Violation[]> {
  // Text that is still fading in is paler than it will be.
  await page.evaluate(() => Promise.all(document.getAnimations().map(({ finished }) => finished)));
  await page.evaluate(axeCore.source);
  return page.evaluate(async (tags) => {
    // Run inside the page, where the line above has put axe on the window.
    const { axe } = window as unknown as { axe: typeof axeCore };
    const { violations } = await axe.run(document, {
      runOnly: { type: 'tag', values: tags },
      // Off in axe's defaults, and the one rule of its own that WCAG 2.2 AA adds.
      rules: { 'target-size': { enabled: true } },
      resultTypes: ['violations'],
    });
    return violations.map(({ id, help, nodes }) => ({
      rule: id,
      help,
      where: nodes.map((node) => `${node.target.join(' ')}: ${node.failureSummary ?? ''}`),
    }));
  }, wcag22AA);
}
