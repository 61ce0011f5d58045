import { format } from 'date-fns';

/** Hands a text to the browser's downloads. */
export function saveTextFile(text: string, fileName: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  // The download starts after this turn of the event loop; an address taken back at once would stop it.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** `dlco-qc-runs_room-2_2026-03-02.csv`: letters and digits of any script, the rest a hyphen. */
export function exportFileName(what: string, now: number): string {
  const slug = what
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return `dlco-qc-runs_${slug || 'analyzer'}_${format(now, 'yyyy-MM-dd')}.csv`;
}
