/** What a narrow window does to a page: all of it looked at inside the page, and told in words. */
import type { Page } from 'playwright-core';

/**
 * Where the page as it stands is lost or cannot be hit. WCAG 2.2: reflow (1.4.10), target size (2.5.8), focus not obscured
 * (2.4.11), keyboard (2.1.1: what scrolls can be reached) and names (4.1.2: and says what it is).
 */
export const layoutFaults = (page: Page): Promise<string[]> => page.evaluate(faultsInside);

/** Runs in the page: it may use nothing from outside itself. */
function faultsInside(): string[] {
  const root = document.documentElement;
  const faults: string[] = [];
  /** A target, or the room to the next one, is as wide and as high as this (2.5.8). */
  const leastPx = 24;
  const roundingPx = 1;

  const nameOf = (element: Element) => {
    const words = (element.getAttribute('aria-label') ?? element.textContent ?? '').trim().slice(0, 50);
    return `${element.localName}.${element.getAttribute('class') ?? ''} “${words}”`;
  };
  const isShown = (element: Element) => element.checkVisibility({ visibilityProperty: true });
  /** For screen readers alone: a point that nobody looks at or presses. */
  const isForReaders = (element: Element) => element.closest('.for-readers') !== null;
  const all = [...document.body.querySelectorAll<HTMLElement>('*')].filter(
    (element) => isShown(element) && !isForReaders(element) && element.closest('svg') === null,
  );

  for (const element of all) {
    const { overflowX, overflowY, textOverflow } = getComputedStyle(element);
    const isWide = element.scrollWidth > element.clientWidth + roundingPx;
    const isHigh = element.scrollHeight > element.clientHeight + roundingPx;
    const cuts = (overflow: string) => overflow === 'hidden' || overflow === 'clip';
    const scrolls = (overflow: string) => overflow === 'auto' || overflow === 'scroll';
    const isField = ['input', 'select', 'textarea', 'option'].includes(element.localName);
    // An ellipsis says that something is left out.
    if (isField || textOverflow === 'ellipsis') continue;
    if ((isWide && cuts(overflowX)) || (isHigh && cuts(overflowY)))
      faults.push(`cut off: ${nameOf(element)}`);
    if ((isWide && scrolls(overflowX)) || (isHigh && scrolls(overflowY))) {
      const isNamed = element.hasAttribute('aria-label') || element.hasAttribute('aria-labelledby');
      if (element.tabIndex < 0 || !isNamed)
        faults.push(`scrolls, but not by keyboard or without a name: ${nameOf(element)}`);
    }
  }

  // Words over words.
  const lines: { rect: DOMRect; words: string; box: Element }[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const box = node.parentElement;
    const words = (node.textContent ?? '').trim();
    if (
      box === null ||
      words === '' ||
      !isShown(box) ||
      isForReaders(box) ||
      box.closest('select, svg') ||
      getComputedStyle(box).textOverflow === 'ellipsis'
    )
      continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) lines.push({ rect, words, box });
  }
  const frameOf = (box: Element) => box.closest('.table-frame');
  const beside = root.scrollWidth - root.clientWidth;
  if (beside > 0) {
    const outside = ({ right }: DOMRect) => right > root.clientWidth + roundingPx;
    const words = lines.filter(({ rect, box }) => outside(rect) && frameOf(box) === null);
    const boxes = all.filter(
      (element) => outside(element.getBoundingClientRect()) && frameOf(element) === null,
    );
    const what = [...words.map(({ box }) => box), ...boxes].slice(0, 3).map(nameOf);
    faults.push(`${beside} px beside the window: ${what.join('; ')}`);
  }

  const isStuck = (box: Element) => {
    for (let at: Element | null = box; at !== null; at = at.parentElement)
      if (getComputedStyle(at).position === 'sticky' || getComputedStyle(at).position === 'fixed')
        return true;
    return false;
  };
  lines.sort((one, other) => one.rect.top - other.rect.top);
  for (const [index, { rect, words, box }] of lines.entries()) {
    for (const other of lines.slice(index + 1)) {
      if (other.rect.top >= rect.bottom) break;
      const across = Math.min(rect.right, other.rect.right) - Math.max(rect.left, other.rect.left);
      const down = Math.min(rect.bottom, other.rect.bottom) - other.rect.top;
      // Line boxes of one text may touch; half a letter's height is no touch.
      if (across < 3 || down < 8 || frameOf(box) !== frameOf(other.box)) continue;
      if (isStuck(box) || isStuck(other.box)) continue;
      faults.push(`“${words.slice(0, 40)}” stands over “${other.words.slice(0, 40)}”`);
    }
  }

  // What is pressed.
  const pressed = 'a[href], button, input, select, textarea, summary, [role="button"], [role="slider"]';
  const targets = all
    .filter((element) => element.matches(pressed))
    .map((element) => {
      // A label is pressed for its box.
      const rects = [element, ...((element as HTMLInputElement).labels ?? [])].map((one) =>
        one.getBoundingClientRect(),
      );
      const left = Math.min(...rects.map((rect) => rect.left));
      const top = Math.min(...rects.map((rect) => rect.top));
      const right = Math.max(...rects.map((rect) => rect.right));
      const bottom = Math.max(...rects.map((rect) => rect.bottom));
      return { element, left, top, right, bottom, x: (left + right) / 2, y: (top + bottom) / 2 };
    })
    .filter(({ left, right, top, bottom }) => right > left && bottom > top);
  const isSmall = (target: (typeof targets)[number]) =>
    target.right - target.left < leastPx - 0.5 || target.bottom - target.top < leastPx - 0.5;
  /** In a sentence: the height of its line is the text's. */
  const isInText = (element: HTMLElement) =>
    getComputedStyle(element).display === 'inline' &&
    [...(element.parentElement?.childNodes ?? [])].some(
      (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? '').trim().length > 1,
    );
  for (const target of targets) {
    if (!isSmall(target) || isInText(target.element)) continue;
    const near = targets.find((other) => {
      if (other.element === target.element || other.element.contains(target.element)) return false;
      const acrossTo = Math.max(other.left - target.x, 0, target.x - other.right);
      const downTo = Math.max(other.top - target.y, 0, target.y - other.bottom);
      const toEdge = Math.hypot(acrossTo, downTo);
      const toMiddle = Math.hypot(other.x - target.x, other.y - target.y);
      return toEdge < leastPx / 2 || (isSmall(other) && toMiddle < leastPx);
    });
    if (near)
      faults.push(
        `${Math.round(target.right - target.left)}×${Math.round(target.bottom - target.top)} px: ${nameOf(target.element)}, beside ${nameOf(near.element)}`,
      );
  }

  // What has the focus is in sight, at least a part of it.
  const stops = all.filter(
    (element) => element.matches(`${pressed}, [tabindex="0"]`) && !element.matches(':disabled'),
  );
  for (const stop of stops) {
    if (!stop.isConnected) continue;
    stop.focus();
    const { left, right, top, bottom } = stop.getBoundingClientRect();
    const at = [0.02, 0.5, 0.98];
    const isSeen = at.some((across) =>
      at.some((down) => {
        const there = document.elementFromPoint(left + (right - left) * across, top + (bottom - top) * down);
        return there !== null && (stop.contains(there) || there.contains(stop));
      }),
    );
    if (!isSeen && document.activeElement === stop)
      faults.push(`has the focus out of sight: ${nameOf(stop)}`);
  }
  window.scrollTo(0, 0);
  return faults;
}
