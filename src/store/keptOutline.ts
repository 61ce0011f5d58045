/**
 * The outline of the folded logbook, kept beside the journal so that the bench form need not wait until ten years of runs are
 * read. It is a convenience and never a record: shown only where it is of this very journal, made by this very program, and
 * whole; what is read afterwards takes its place, and one that said anything else is written anew.
 */
import * as z from 'zod/mini';
import { sha256Hex } from '../journal/chain.ts';
import type { Logbook } from '../journal/logbook.ts';
import { outlineText, readOutline } from '../journal/outline.ts';
import { marksOf } from '../journal/union.ts';
import type { LogbookDatabase } from './database.ts';

const setting = 'outline';
const keptSchema = z.object({ of: z.string(), text: z.string(), hash: z.string() });
type Kept = z.infer<typeof keptSchema>;

/** The name of the built file carries the hash of what is in it: another release is another program. */
const program = import.meta.url;

/** Which journal, by its length and its last row, as which program reads it. */
function journalKey(count: number, last: unknown): string | null {
  const { hash } = marksOf(last);
  return hash === null ? null : `${count} ${hash} ${program}`;
}

export function createKeptOutline(database: LogbookDatabase) {
  let kept: Kept | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
    /** The logbook in outline; null where none is kept, or it is of another journal or program, or was changed. */
    async read(atLeast: number): Promise<Logbook | null> {
      const [end, stored] = await Promise.all([database.journalEnd(), database.readSetting(setting)]);
      const read = keptSchema.safeParse(stored);
      if (end === null || end.count < atLeast || !read.success) return null;
      kept = read.data;
      const { of, text, hash } = kept;
      return of === journalKey(end.count, end.last) && hash === (await sha256Hex(text))
        ? readOutline(text)
        : null;
    },
    /** Keeps the outline of the logbook as it is now, a little later. */
    keep(logbook: Logbook, rawRows: readonly unknown[]): void {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        const of = journalKey(rawRows.length, rawRows.at(-1));
        const text = outlineText(logbook);
        if (of === null || (kept?.of === of && kept.text === text)) return;
        sha256Hex(text)
          .then((hash) => {
            kept = { of, text, hash };
            return database.writeSetting(setting, kept);
          })
          .catch(() => {}); // the next start reads the journal, as it does without it
      }, keptAfterMs);
    },
    stop: () => clearTimeout(waiting),
  };
}

/** So that a save does not wait for it. */
const keptAfterMs = 250;
