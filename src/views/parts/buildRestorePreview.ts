/** What adding a backup file would do, in words, before anything is written. */
import type { ReadBackup } from '../../exchange/readBackup.ts';
import { type ChainSummary, chainSummaries } from '../../journal/chain.ts';
import { marksOf, type RowConflict, type RowUnion } from '../../journal/union.ts';
import { counted, dayAndTime } from './figures.ts';

export interface RestorePreview {
  figures: readonly { name: string; value: string }[];
  /** What has to be known before the button is pressed. */
  cautions: readonly string[];
  /** Entry by entry: what contradicts what is here. */
  conflicts: readonly string[];
  /** Line by line: what is wrong with the file. */
  problems: readonly string[];
  /** The chains in the file with their heads, to be compared with a print. */
  heads: readonly ChainSummary[];
  /** The button's words; null when there is nothing to add. */
  action: string | null;
}

const entries = (count: number) => counted(count, 'entry', 'entries');

export function buildRestorePreview({
  reading,
  union,
  ownWorkstation,
}: {
  reading: ReadBackup;
  union: RowUnion;
  /** Id of the chain that this workstation writes. */
  ownWorkstation: string | null;
}): RestorePreview {
  const { header, counts, rows } = reading;
  const { fresh, alreadyThere, conflicts } = union;
  const figures = [
    { name: 'Written', value: header ? dayAndTime(header.writtenAt, header.zone) : 'Not known' },
    { name: 'By workstation', value: header ? header.writtenBy : 'Not known' },
    { name: 'Entries in it', value: String(rows.length) },
    { name: 'New here', value: String(fresh.length) },
    { name: 'Already here', value: String(alreadyThere) },
    { name: 'Conflicts', value: String(conflicts.length) },
    { name: 'Damaged', value: String(counts.damaged + linesLeftOut(reading)) },
  ];
  return {
    figures,
    cautions: cautionsOf(reading, fresh, ownWorkstation),
    conflicts: conflicts.map(conflictSentence),
    problems: reading.problems.map(({ sentence }) => sentence),
    heads: chainSummaries(rows),
    action: fresh.length === 0 ? null : `Add ${entries(fresh.length)}`,
  };
}

/** Lines that hold something and cannot be taken over. */
const linesLeftOut = ({ problems, counts, isWhole }: ReadBackup) => {
  const lines = problems.filter(({ kind }) => kind === 'row').length;
  return isWhole ? Math.max(0, lines - counts.damaged - counts.newer) : lines;
};

function cautionsOf(
  { isWhole, counts, header }: ReadBackup,
  fresh: readonly unknown[],
  ownWorkstation: string | null,
): string[] {
  const cautions: string[] = [];
  if (!isWhole) {
    cautions.push(
      'The file is not as it was written. What can be taken from it fits its own hash; look for an older or another copy for the rest.',
    );
  }
  if (header !== null && header.unwritable > 0) {
    cautions.push(
      `${entries(header.unwritable)} could not be written into the file when it was made: they were damaged.`,
    );
  }
  if (counts.newer > 0) {
    cautions.push(
      `${counted(counts.newer, 'entry is', 'entries are')} of a newer version of the logbook. Once they are added, this logbook can be read here but not written until that version is installed.`,
    );
  }
  if (ownWorkstation !== null && fresh.some((row) => marksOf(row).workstation === ownWorkstation)) {
    cautions.push(
      'The file continues this workstation’s own chain: the browser’s profile was copied, or lost its last entries. From this merge on the workstation writes a chain of its own, under a new id.',
    );
  }
  return cautions;
}

function conflictSentence({ kind, id, workstation, seq, firstId }: RowConflict): string {
  const where = workstation === null || seq === null ? '' : `, number ${seq} of workstation ${workstation},`;
  if (kind === 'id') {
    return `Entry ${id}${where} stands here with other content: one of the two was changed after it was written. Both are kept, and the check of the chain tells which.`;
  }
  return `Number ${seq} of workstation ${workstation} is entry ${firstId ?? 'without an id'} here and entry ${id ?? 'without an id'} in the file: this chain was continued in two places. Both are kept.`;
}
