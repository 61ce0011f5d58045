/** One visit of one tab, from its opening to its end, reloads included: what is carried over from run to run ends with it. */
const key = 'diffusion-qc-logbook session';

/** Where the browser's small storage is forbidden, every reload is another visit. */
const ofThisPage = crypto.randomUUID();

export function sessionId(): string {
  try {
    const kept = sessionStorage.getItem(key);
    if (kept !== null) return kept;
    sessionStorage.setItem(key, ofThisPage);
  } catch {
    // Forbidden or full.
  }
  return ofThisPage;
}
