import { useEffect, useState } from 'react';
import * as z from 'zod/mini';
import { useLogbook } from '../logbookContext.tsx';
import { emptySignOff, type SignOffDraft } from './readSignOff.ts';

const settingKey = 'sign-off-draft';

/** What was ticked and typed, and behind which sign-off: once another is made, it is of no use any more. */
const keptSchema = z.object({
  after: z.string(),
  draft: z.object({
    comment: z.string(),
    comments: z.record(z.string(), z.string()),
    seen: z.array(z.string()),
  }),
});

/** A sign-off that is half made outlives a reload: reading a period through takes more than one sitting. */
export function useKeptSignOff(): [SignOffDraft, (draft: SignOffDraft) => void] {
  const { handle, logbook } = useLogbook();
  const after = logbook.signOffs.at(-1)?.id ?? '';
  const [draft, setDraft] = useState<SignOffDraft | null>(null);

  useEffect(() => {
    let isStale = false;
    handle
      .readSetting(settingKey, keptSchema)
      .then((kept) => {
        // What was typed before the kept draft arrived stays.
        if (!isStale && kept?.after === after) setDraft((typed) => typed ?? kept.draft);
      })
      .catch(() => {}); // nothing kept: the page begins empty, and what fails to write says so when it is signed
    return () => {
      isStale = true;
    };
  }, [handle, after]);

  const change = (next: SignOffDraft) => {
    setDraft(next);
    const { comment, comments, seen } = next;
    handle
      .writeSetting(settingKey, { after, draft: { comment, comments: { ...comments }, seen: [...seen] } })
      .catch(() => {});
  };
  return [draft ?? emptySignOff, change];
}
