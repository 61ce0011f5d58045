/** What was typed of a control and not yet recorded outlives a look at another page. Each address has its own. */
import { create } from 'zustand';
import type { ControlDraft } from './controlDraft.ts';

interface KeptControls {
  drafts: ReadonlyMap<string, ControlDraft>;
  keep: (address: string, draft: ControlDraft) => void;
  forget: (address: string) => void;
}

export const useKeptControls = create<KeptControls>()((set) => ({
  drafts: new Map(),
  keep: (address, draft) => set(({ drafts }) => ({ drafts: new Map(drafts).set(address, draft) })),
  forget: (address) =>
    set(({ drafts }) => ({ drafts: new Map([...drafts].filter(([kept]) => kept !== address)) })),
}));
