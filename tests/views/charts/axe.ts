import { run } from 'axe-core';
import { vi } from 'vitest';

/** What axe finds wrong, one line each. Contrast needs a real browser: it is computed from the tokens elsewhere. */
export async function axe(container: HTMLElement): Promise<string[]> {
  // jsdom has no canvas and says so aloud; axe only asks it whether a letter is an icon.
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
  const { violations } = await run(container, { rules: { 'color-contrast': { enabled: false } } });
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
}
