/** What the sign-offs in a journal cover, entry by entry, and what was changed under them afterwards. Pure. */
import type { Entry, EntryOf } from '../journal/entries.ts';
import type { Logbook, LoggedControl, LoggedRun } from '../journal/logbook.ts';

export type SignOff = EntryOf<'period-signed'>;

export interface Coverage {
  /** Oldest first, each with the entries that it was the first to cover and the workstations whose head is not stored here. */
  signOffs: readonly { signOff: SignOff; covered: readonly Entry[]; strayHeads: readonly string[] }[];
  /** The place in `signOffs` of the first that covers an entry; undefined while none does. */
  placeOf: (entry: Entry) => number | undefined;
}

/**
 * A head covers its own entry and all before it in its chain, followed by their hashes: in a chain that two browsers went
 * on with, the other branch is not signed. A number that cannot be read here ends nothing: the head vouches for it.
 */
export function coverageOf(entries: readonly Entry[], inOrder: readonly SignOff[]): Coverage {
  const chains = new Map<string, Map<number, Entry[]>>();
  for (const entry of entries) {
    const chain = chains.get(entry.workstation) ?? new Map<number, Entry[]>();
    chains.set(entry.workstation, chain);
    const here = chain.get(entry.seq);
    if (here) here.push(entry);
    else chain.set(entry.seq, [entry]);
  }
  const places = new Map<string, number>();
  const signOffs = inOrder.map((signOff, place) => {
    const covered: Entry[] = [];
    const strayHeads: string[] = [];
    for (const head of signOff.body.heads) {
      const chain = chains.get(head.workstation);
      if (!chain?.get(head.seq)?.some(({ hash }) => hash === head.hash)) {
        strayHeads.push(head.workstation);
        continue;
      }
      let link: string | null = head.hash;
      for (let seq = head.seq; seq > 0; seq -= 1) {
        const here: readonly Entry[] | undefined = chain.get(seq);
        if (here === undefined) {
          link = null;
          continue;
        }
        const entry: Entry | undefined =
          link === null ? onlyOne(here) : here.find(({ hash }) => hash === link);
        if (entry === undefined || places.has(entry.hash)) break;
        places.set(entry.hash, place);
        covered.push(entry);
        link = entry.prev;
      }
    }
    return { signOff, covered, strayHeads };
  });
  return { signOffs, placeOf: ({ hash }) => places.get(hash) };
}

const onlyOne = (entries: readonly Entry[]) => (entries.length === 1 ? entries[0] : undefined);

export type RunChange = EntryOf<'run-amended' | 'run-voided' | 'run-set-aside' | 'import-voided'>;
export type ControlChange = EntryOf<'control-amended' | 'control-voided' | 'control-set-aside'>;

interface Changed<C> {
  change: C;
  /** The sign-off that it lay under when it was changed. */
  after: SignOff;
  /** The first one that covers the change; null while none does. */
  again: SignOff | null;
}

export interface ChangeAfterSignOff extends Changed<RunChange> {
  run: LoggedRun;
}

export interface ControlChangeAfterSignOff extends Changed<ControlChange> {
  control: LoggedControl;
}

/** Changes by what they change, in the order of the journal. */
class ChangesById<C> {
  readonly #known = new Map<string, C[]>();

  note(id: string, change: C): void {
    const there = this.#known.get(id);
    if (there) there.push(change);
    else this.#known.set(id, [change]);
  }

  of(id: string): readonly C[] {
    return this.#known.get(id) ?? [];
  }
}

/** Every change of a run that lay under a sign-off, in the order of the runs and, of one run, of the changes. */
export function changesAfterSignOff(
  { runs }: Pick<Logbook, 'runs'>,
  entries: readonly Entry[],
  coverage: Coverage,
): readonly ChangeAfterSignOff[] {
  if (coverage.signOffs.length === 0) return [];
  const ofRuns = new ChangesById<RunChange>();
  const ofImports = new ChangesById<RunChange>();
  for (const entry of entries) {
    if (entry.kind === 'import-voided') ofImports.note(entry.body.batchId, entry);
    else if (entry.kind === 'run-amended' || entry.kind === 'run-voided' || entry.kind === 'run-set-aside')
      ofRuns.note(entry.body.runId, entry);
  }
  return runs.flatMap((run) => {
    const { origin } = run.entry.body;
    const changes = [...ofRuns.of(run.id), ...(origin.kind === 'import' ? ofImports.of(origin.batchId) : [])];
    return changedUnder(run.entry, changes, coverage).map((changed) => ({ run, ...changed }));
  });
}

/** The same of controls. */
export function controlChangesAfterSignOff(
  { controls }: Pick<Logbook, 'controls'>,
  entries: readonly Entry[],
  coverage: Coverage,
): readonly ControlChangeAfterSignOff[] {
  if (coverage.signOffs.length === 0) return [];
  const ofControls = new ChangesById<ControlChange>();
  for (const entry of entries) {
    if (
      entry.kind === 'control-amended' ||
      entry.kind === 'control-voided' ||
      entry.kind === 'control-set-aside'
    )
      ofControls.note(entry.body.controlId, entry);
  }
  return controls.flatMap((control) =>
    changedUnder(control.entry, ofControls.of(control.id), coverage).map((changed) => ({
      control,
      ...changed,
    })),
  );
}

function changedUnder<C extends Entry>(
  recorded: Entry,
  changes: readonly C[],
  { signOffs, placeOf }: Coverage,
): Changed<C>[] {
  let lastPlace = placeOf(recorded);
  return changes.flatMap((change): Changed<C>[] => {
    if (lastPlace === undefined) return [];
    const after = signOffs[lastPlace]?.signOff;
    const place = placeOf(change);
    if (after === undefined || (place !== undefined && place <= lastPlace)) return [];
    lastPlace = place ?? lastPlace;
    return [{ change, after, again: place === undefined ? null : (signOffs[place]?.signOff ?? null) }];
  });
}

/** The first sign-off that covers how a run or a control was recorded. */
export const signOffOf = (
  { signOffs, placeOf }: Coverage,
  { entry }: Pick<LoggedRun | LoggedControl, 'entry'>,
): SignOff | null => signOffs[placeOf(entry) ?? -1]?.signOff ?? null;
