import { type RefObject, useEffect } from 'react';

const controls = 'a, button, input, select, textarea, summary';

/**
 * Enter goes on and Esc goes back, wherever on the page the focus is. A control keeps its own Enter: a field sends its form
 * by itself, a button is pressed. A key that is held down counts once, so that it does not run through the steps.
 * `isEnterHere`: false where going on writes something, which takes the button itself.
 */
export function useStepKeys({
  form,
  goBack,
  isEnterHere = true,
}: {
  form: RefObject<HTMLFormElement | null>;
  goBack: () => void;
  isEnterHere?: boolean;
}): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat && (event.key === 'Enter' || event.key === 'Escape')) {
        event.preventDefault();
        return;
      }
      if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
      const at = event.target instanceof Element ? event.target : null;
      // An open choice is closed by Esc.
      if (event.key === 'Escape' && at?.closest('select') == null) goBack();
      if (event.key === 'Enter' && isEnterHere && at?.closest(controls) == null)
        form.current?.requestSubmit();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  });
}
