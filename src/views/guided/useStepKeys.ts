import { type RefObject, useEffect } from 'react';

/** They do something of their own with Enter: a field sends its form, a button is pressed. A closed list does not. */
const controls = 'a, button, input, textarea, summary';

/**
 * Enter goes on and Esc goes back, wherever on the page the focus is. A key that is held down counts once, so that it does
 * not run through the steps. `isEnterHere`: false where going on writes something, which takes the button itself.
 */
export function useStepKeys({
  form,
  goBack,
  isEnterHere,
}: {
  form: RefObject<HTMLFormElement | null>;
  goBack: () => void;
  isEnterHere: boolean;
}): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Enter' && event.key !== 'Escape') return;
      const at = event.target instanceof Element ? event.target : null;
      if (event.repeat) {
        // But in a text of several lines, which takes as many as are wanted.
        if (!(at instanceof HTMLTextAreaElement)) event.preventDefault();
        return;
      }
      if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || isOpenList(at)) return;
      if (event.key === 'Escape') goBack();
      else if (isEnterHere && !at?.closest(controls)) form.current?.requestSubmit();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  });
}

/** Some browsers show the page the keys with which an open list is chosen from or closed. */
function isOpenList(at: Element | null): boolean {
  try {
    return at instanceof HTMLSelectElement && at.matches(':open');
  } catch {
    // An older browser does not know the word.
    return false;
  }
}
