import { localDay } from './localTime.ts';

/** Hands a text or bytes to the browser's downloads. */
export function saveFile(content: BlobPart, fileName: string, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  // The download starts after this turn of the event loop; an address taken back at once would stop it.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** `dlco-qc-runs_room-2_2026-03-02.csv`: letters and digits of any script, the rest a hyphen. */
export const exportFileName = (what: string, now: number) =>
  `dlco-qc-runs_${slug(what) || 'analyzer'}_${localDay(now)}.csv`;

/** `dlco-qc-chart_va-room-2-patient-test_2026-03-02.svg`. */
export const chartFileName = (what: string, now: number, kind: 'svg' | 'png') =>
  `dlco-qc-chart_${slug(what) || 'series'}_${localDay(now)}.${kind}`;

const slug = (what: string) =>
  what
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');

/** `dlco-qc-backup_2026-03-02_500-entries.jsonl`, by the date at this workstation. */
export const backupFileName = (now: number, entries: number) =>
  `dlco-qc-backup_${localDay(now)}_${entries}-entries.jsonl`;

/** `dlco-qc-package_2025-06-01_2026-05-31.zip`, by the period that it is about. */
export const packageFileName = ({ from, to }: { from: string; to: string }) =>
  `dlco-qc-package_${from}_${to}.zip`;
