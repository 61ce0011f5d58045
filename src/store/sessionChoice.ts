/** A small choice of how something is shown, kept for one visit of one tab: a reload stays, the next visit begins anew. */
const prefix = 'diffusion-qc-logbook choice ';

/** Null where nothing was kept, or the browser's small storage is forbidden. */
export function readSessionChoice(name: string): string | null {
  try {
    return sessionStorage.getItem(prefix + name);
  } catch {
    return null;
  }
}

export function keepSessionChoice(name: string, choice: string): void {
  try {
    sessionStorage.setItem(prefix + name, choice);
  } catch {
    // Forbidden or full: the choice lasts until the page is left.
  }
}
