/** Shown while something is fetched or read; `what` completes "Opening …". */
export function Loading({ what }: { what: string }) {
  return (
    <p aria-live="polite" className="spread__page quiet">
      Opening {what}…
    </p>
  );
}
