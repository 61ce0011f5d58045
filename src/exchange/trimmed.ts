/** What `trim` gives. Asked here first, since a file has millions of cells and hardly one begins or ends with a blank. */
export function trimmed(text: string): string {
  const last = text.length - 1;
  return last >= 0 && isLetter(text.charCodeAt(0)) && isLetter(text.charCodeAt(last)) ? text : text.trim();
}

/** Of ASCII alone: blanks beyond it are many. */
const isLetter = (code: number) => code > 0x20 && code < 0x7f;
