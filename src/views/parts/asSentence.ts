/** What a person typed, as a sentence before another: `Valve sticks` and `Valve sticks.` alike. */
export function asSentence(typed: string): string {
  const text = typed.trim();
  return /[.!?…]$/.test(text) ? text : `${text}.`;
}
