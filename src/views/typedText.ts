/** Whether something was typed that a reload would lose. */
export interface TypedText {
  wouldBeLost(): boolean;
}

/** The bench and the guided run keep what is half-typed. */
const keepsItsText = /^#\/(bench|guided)\b/;

/** Remembers the fields that were typed into; those that are gone or empty again hold nothing. */
export function watchTyping(page: Document): TypedText {
  const fields = new Set<HTMLInputElement | HTMLTextAreaElement>();
  page.addEventListener(
    'input',
    ({ target }) => {
      if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) fields.add(target);
    },
    { capture: true },
  );
  return {
    wouldBeLost() {
      for (const field of fields) if (!field.isConnected) fields.delete(field);
      if (keepsItsText.test(page.location.hash)) return false;
      return [...fields].some(({ value }) => value !== '');
    },
  };
}
