import { type RefObject, useEffect } from 'react';

/** After a try that wrote nothing: to the first field that stopped it. */
export function focusFirstInvalid(form: HTMLFormElement | null): void {
  form?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
}

/** A form that opens in place of the button that was pressed takes the focus, which would otherwise be lost with it. */
export function useFocusWhenOpened(form: RefObject<HTMLFormElement | null>, isAsked = true): void {
  useEffect(() => {
    if (isAsked) form.current?.focus();
  }, [form, isAsked]);
}
