/**
 * Fills the real bench form and presses its button, from inside the page: as fast as the page allows, and without a
 * word from the test between two saves. It is given to the page as text and may use nothing from around it.
 */
export interface Saves {
  /** Numbers of the saves; each stands in its run's comment. */
  numbers: readonly number[];
}

interface Ears {
  heardBegun(number: number): Promise<void>;
  heardSaved(number: number): Promise<void>;
}

export async function saveRuns({ numbers }: Saves): Promise<void> {
  const ears = window as unknown as Ears;
  const labels = () => [...document.querySelectorAll('label')];
  const control = (words: string) => {
    const label = labels().find(({ textContent }) => textContent?.trim() === words);
    const found = label && document.getElementById(label.htmlFor);
    if (!found) throw new Error(`there is no field "${words}"`);
    return found as HTMLInputElement;
  };
  const type = (words: string, text: string) => {
    const field = control(words);
    const kind = field instanceof HTMLTextAreaElement ? HTMLTextAreaElement : HTMLInputElement;
    // By the browser's own setter: React has put its own in front of it.
    Object.getOwnPropertyDescriptor(kind.prototype, 'value')?.set?.call(field, text);
    field.dispatchEvent(new Event('input', { bubbles: true }));
  };
  const button = (words: string) =>
    [...document.querySelectorAll('button')].find(({ textContent }) => textContent === words);
  const turn = () => new Promise<void>((resolve) => setTimeout(resolve, 1));
  const until = async <T>(what: string, look: () => T | null | undefined | false): Promise<T> => {
    const startedAt = performance.now();
    for (;;) {
      const found = look();
      if (found) return found;
      if (performance.now() - startedAt > 20_000) throw new Error(`waited in vain for ${what}`);
      await turn();
    }
  };

  for (const number of numbers) {
    const comment = `save ${number}`;
    // Who works here and what was carried over from the last run is asked for anew once the browser was killed.
    const person = document.querySelector<HTMLSelectElement>('[data-field="technologistId"]');
    if (person?.value === '') {
      person.selectedIndex = 1;
      person.dispatchEvent(new Event('change', { bubbles: true }));
    }
    if (control('Temperature').value === '') type('Temperature', '22');
    if (control('Barometric pressure').value === '') type('Barometric pressure', '760');
    // What a browser that was killed had kept of the form is used as it is: that is the second try.
    if (control('Comment').value !== comment) {
      type('Alveolar volume, VA', (3.4 + (number % 89) / 1000).toFixed(3));
      type('DLCO', ((number % 97) / 1000).toFixed(3));
      type('Comment', comment);
    }
    await turn();
    void ears.heardBegun(number);
    button('Record run')?.click();
    await until(`save ${number}`, () => {
      button('Yes, record it')?.click();
      return document.querySelector('[data-state="recorded"]') && control('Comment').value === '';
    });
    void ears.heardSaved(number);
  }
}
