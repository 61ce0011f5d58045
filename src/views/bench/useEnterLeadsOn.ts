/** A run is typed without a mouse: Enter leads to what is still to be typed, and records when that is all. */
import { type KeyboardEvent, type RefObject, useEffect } from 'react';
import { useLogbook } from '../logbookContext.tsx';
import { type BenchField, benchFields } from '../runForm/benchDraft.ts';
import { lastRunOf } from '../runForm/lastRunOf.ts';
import { nextToType } from '../runForm/nextToType.ts';
import type { Bench } from '../runForm/useRunOnBench.ts';
import { useScreenState } from '../screenState.ts';

export function useEnterLeadsOn(form: RefObject<HTMLFormElement | null>, bench: Bench) {
  const { logbook } = useLogbook();
  const { draft, reading } = bench;
  const { isBegun, setBegun } = useScreenState();

  const next = (from: BenchField | null) =>
    nextToType(from, draft, reading, lastRunOf(logbook, draft.analyzerId));
  const goTo = (field: BenchField) =>
    form.current?.querySelector<HTMLElement>(`[data-field="${field}"]`)?.focus();

  // After every drawing, until the form holds the run that was begun.
  useEffect(() => {
    if (!isBegun || form.current === null) return;
    setBegun(false);
    // From the head of the form, which says whose run it is; the browser scrolls on only as far as the field asks for.
    document.documentElement.scrollTop = 0;
    goTo(next(null) ?? 'va');
  });

  return (event: KeyboardEvent<HTMLFormElement>) => {
    if (event.key !== 'Enter' || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    if (event.nativeEvent.isComposing || !isField(event.target)) return;
    event.preventDefault();
    // A key held down must not run through the form and record it.
    if (event.repeat) return;
    // From a unit it leads on as from the number that it belongs to.
    const from = event.target.closest('.field')?.querySelector<HTMLElement>('[data-field]')?.dataset.field;
    const here = benchFields.find((one) => one === from);
    if (here !== undefined && reading.errors[here] !== undefined) {
      bench.leaveField(here);
      return;
    }
    const field = next(here ?? null);
    if (field !== null) goTo(field);
    else form.current?.requestSubmit();
  };
}

/** A field of one line or a closed choice. Where a list of choices hangs open, Enter takes one. */
function isField(target: EventTarget): target is HTMLInputElement | HTMLSelectElement {
  if (target instanceof HTMLInputElement) return target.type !== 'checkbox';
  return target instanceof HTMLSelectElement && !isListOpen(target);
}

function isListOpen(choice: HTMLSelectElement): boolean {
  try {
    return choice.matches(':open');
  } catch {
    // An older browser knows no such state, and keeps the key for its list.
    return false;
  }
}
