import { useEffect, useEffectEvent } from 'react';

/**
 * Calls `onDigit` for a digit from 1 to 9 that is pressed alone, on either part of the keyboard, while no field is being
 * typed in. The key itself counts, not its letter: where digits need the shift key, none is held.
 */
export function useDigitKeys(isOn: boolean, onDigit: (digit: number) => void): void {
  const listen = useEffectEvent((event: KeyboardEvent) => {
    const digit = digitOf(event);
    if (digit === null || event.defaultPrevented || event.repeat || isTypedIn(event.target)) return;
    event.preventDefault();
    onDigit(digit);
  });
  useEffect(() => {
    if (!isOn) return;
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, [isOn]);
}

function digitOf({ key, code, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent): number | null {
  if (altKey || ctrlKey || metaKey || shiftKey) return null;
  const [, digit] = /^([1-9])$/.exec(key) ?? /^Digit([1-9])$/.exec(code) ?? [];
  return digit === undefined ? null : Number(digit);
}

function isTypedIn(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || target.closest('input, select, textarea') !== null)
  );
}
