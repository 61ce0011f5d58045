/**
 * Where one is, for whom the change of a page says nothing: the window's title, a word to screen readers, and the focus on
 * the new page where it went with the former one. The hash is the address here, so that the browser does none of it.
 */
import { useEffect, useEffectEvent, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { laboratoryOf } from '../journal/standing.ts';
import { useLogbook } from './logbookContext.tsx';
import { headingsOf, product, shownPage, windowTitle } from './screenTitle.ts';

/** Long enough to be read out, and gone before anybody who reads on comes to it. */
const saidForMs = 3000;

const screenOf = (location: string) => location.split('/')[1];

export default function ScreenName() {
  const { logbook } = useLogbook();
  const { name } = laboratoryOf(logbook);
  const [location] = useLocation();
  const [said, setSaid] = useState('');
  const arrivedAt = useRef(location);
  /** What the last page was called. */
  const called = useRef('');

  const arrive = useEffectEvent((page: HTMLElement, headings: readonly string[]) => {
    const isNewScreen = screenOf(location) !== screenOf(arrivedAt.current);
    const what = headings.join(', ');
    const isNewName = what !== called.current && called.current !== '';
    called.current = what;
    if (location === arrivedAt.current) return;
    arrivedAt.current = location;
    if (!isNewScreen && !isNewName) return;
    // A page that leads to its own first field, or to its heading, has said where one is.
    if (isPlaced(document.activeElement, page)) return;
    if (isLost(document.activeElement, isNewScreen)) page.focus({ preventScroll: true });
    setSaid(what);
  });

  const look = useEffectEvent(() => {
    const page = shownPage(document);
    const headings = headingsOf(page);
    document.title = windowTitle(headings, location, name);
    if (page !== undefined && headings.length > 0) arrive(page, headings);
  });

  useEffect(() => {
    // Once a picture: a page that is being drawn changes in many places, and puts the focus where it wants it.
    let picture = 0;
    const soon = () => {
      cancelAnimationFrame(picture);
      picture = requestAnimationFrame(look);
    };
    const observer = new MutationObserver(soon);
    observer.observe(document.body, { childList: true, characterData: true, subtree: true });
    soon();
    return () => {
      observer.disconnect();
      cancelAnimationFrame(picture);
      document.title = product;
    };
  }, []);

  useEffect(() => {
    if (said === '') return;
    const timer = setTimeout(() => setSaid(''), saidForMs);
    return () => clearTimeout(timer);
  }, [said]);

  return (
    <p className="for-readers" role="status">
      {said}
    </p>
  );
}

/** In a field or on a stop that the page has chosen: whoever follows a link stands on the link. */
const isPlaced = (focused: Element | null, page: Element) =>
  focused !== page &&
  page.contains(focused) &&
  focused?.matches('input, select, textarea, [tabindex="-1"]') === true;

/** Gone with the former page, or left behind in the line of screens. A list beside the page keeps it. */
const isLost = (focused: Element | null, isNewScreen: boolean) =>
  focused === null || focused === document.body || (isNewScreen && focused.closest('.top-line') !== null);
