import { describe, expect, it } from 'vitest';
import type { Entry, EntryDraft } from '../../../src/journal/entries.ts';
import { foldJournal } from '../../../src/journal/fold.ts';
import {
  changesAfterSignOff,
  controlChangesAfterSignOff,
  coverageOf,
  signOffOf,
} from '../../../src/views/signedOff.ts';
import { newEntries } from '../../../src/views/signOff/newEntries.ts';
import { runRecorded, sealChain } from '../../journal/fixtures.ts';
import { biological, controlId, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, laboratoryDrafts, run, theRun, week } from '../laboratory.ts';

let made = 0;
/** Over everything up to the heads given. */
const signOff = (...heads: readonly Entry[]): EntryDraft =>
  draft('period-signed', {
    signOffId: `sign-off-${++made}`,
    from: '2026-03-01',
    to: '2026-03-02',
    analyzers: [],
    heads: heads.map(({ workstation, seq, hash }) => ({ workstation, seq, hash })),
    comment: '',
    signature: null,
  });
const amended = (number: number): EntryDraft => {
  const { runId: _id, origin: _origin, judged, ...content } = runRecorded(number, { madeAt: week(number) });
  if (judged === null) throw new Error('not judged');
  return draft('run-amended', {
    amendmentId: `amendment-${++made}`,
    runId: ids.run(number),
    run: content,
    judged,
    reason: 'A slip.',
  });
};
const voided = (number: number) =>
  draft('run-voided', { runId: ids.run(number), reason: 'Leak at the tap.' });

/** A chain whose later drafts may name what the earlier ones came to be. */
async function chain(
  ...parts: readonly (readonly EntryDraft[] | ((sealed: readonly Entry[]) => EntryDraft))[]
) {
  const drafts: EntryDraft[] = [];
  for (const part of parts) {
    if (typeof part === 'function') drafts.push(part(await sealChain(drafts)));
    else drafts.push(...part);
  }
  return sealChain(drafts);
}
const headOf = (entries: readonly Entry[]) => {
  const head = entries.at(-1);
  if (!head) throw new Error('no entry');
  return head;
};
const open = (entries: readonly Entry[]) => {
  const logbook = foldJournal(entries);
  const coverage = coverageOf(entries, logbook.signOffs);
  return { logbook, coverage, changes: changesAfterSignOff(logbook, entries, coverage) };
};

describe('coverageOf', () => {
  it('covers a head and all before it in its chain, and nothing after it', async () => {
    const entries = await chain(laboratoryDrafts(), [run(0, 3)], (all) => signOff(headOf(all)), [run(1, 3)]);
    const { coverage } = open(entries);
    expect(entries.map(coverage.placeOf)).toEqual([0, 0, 0, 0, undefined, undefined]);
    expect(coverage.signOffs[0]?.covered).toHaveLength(4);
  });

  it('gives each entry to the first sign-off that covers it, and the earlier sign-off to the later one', async () => {
    const entries = await chain(
      laboratoryDrafts(),
      (all) => signOff(headOf(all)),
      [run(0, 3)],
      (all) => signOff(headOf(all)),
    );
    expect(entries.map(open(entries).coverage.placeOf)).toEqual([0, 0, 0, 1, 1, undefined]);
  });

  it('leaves the other branch of a chain that two browsers went on with uncovered', async () => {
    const trunk = [...laboratoryDrafts(), run(0, 3)];
    const one = await sealChain([...trunk, run(1, 3), run(2, 3)]);
    const other = await sealChain([...trunk, run(3, 3), run(4, 3)]);
    const signed = await sealChain([signOff(headOf(one))], { workstation: 'workstation-b' });
    const both = [...one, ...other.slice(4), ...signed];
    const { coverage } = open(both);
    expect(one.map(coverage.placeOf)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(other.slice(4).map(coverage.placeOf)).toEqual([undefined, undefined]);
  });

  it('reads over a number that is not stored here, as of a damaged row', async () => {
    const whole = await chain(laboratoryDrafts(), [run(0, 3), run(1, 3)], (all) => signOff(headOf(all)));
    const { coverage } = open(whole.filter(({ seq }) => seq !== 4));
    expect(whole.map(coverage.placeOf)).toEqual([0, 0, 0, undefined, 0, undefined]);
    expect(coverage.signOffs[0]?.strayHeads).toEqual([]);
  });

  it('names the workstation whose signed head is not stored, and covers nothing of it', async () => {
    const far = await sealChain([...laboratoryDrafts(), run(0, 3)], { workstation: 'workstation-far' });
    const here = await sealChain([signOff(headOf(far))], { workstation: 'workstation-b' });
    const { coverage } = open([...far.slice(0, 3), ...here]);
    expect(coverage.signOffs[0]).toMatchObject({ covered: [], strayHeads: ['workstation-far'] });
  });
});

describe('changesAfterSignOff', () => {
  it('tells of an amendment, a void and a setting aside that came after the sign-off of the run', async () => {
    const aside = draft('run-set-aside', { runId: ids.run(2), isSetAside: true, reason: 'Trial.' });
    const entries = await chain(
      laboratoryDrafts(),
      [run(0, 3), run(1, 3), run(2, 3)],
      (all) => signOff(headOf(all)),
      [amended(0), voided(1), aside],
    );
    const { changes, logbook } = open(entries);
    expect(changes.map(({ run: { id }, change, again }) => [id, change.kind, again])).toEqual([
      [ids.run(0), 'run-amended', null],
      [ids.run(1), 'run-voided', null],
      [ids.run(2), 'run-set-aside', null],
    ]);
    expect(changes[0]?.after).toBe(logbook.signOffs[0]);
  });

  it('is silent about a change that was signed together with its run, and about runs under no sign-off', async () => {
    const entries = await chain(laboratoryDrafts(), [run(0, 3), amended(0)], (all) => signOff(headOf(all)), [
      run(1, 3),
      amended(1),
    ]);
    expect(open(entries).changes).toEqual([]);
  });

  it('says which later sign-off covers the change, and holds the next change against that one', async () => {
    const entries = await chain(
      laboratoryDrafts(),
      [run(0, 3)],
      (all) => signOff(headOf(all)),
      [amended(0)],
      (all) => signOff(headOf(all)),
      [voided(0)],
    );
    const { changes, logbook, coverage } = open(entries);
    const [first, second] = logbook.signOffs;
    expect(changes.map(({ after, again }) => [after, again])).toEqual([
      [first, second],
      [second, null],
    ]);
    expect(signOffOf(coverage, theRun(logbook, 0))).toBe(first);
  });

  it('tells of every run of an import that was voided whole', async () => {
    const batch = draft('runs-imported', {
      batchId: 'batch-one',
      fileName: 'runs.csv',
      fileHash: '0'.repeat(64),
      rowsRead: 2,
      accepted: 2,
      refused: 0,
    });
    const origin = (row: number) => ({ kind: 'import' as const, batchId: 'batch-one', row });
    const imported = [0, 1].map((index) => run(index, 3, { origin: origin(index + 1), judged: null }));
    const entries = await chain(laboratoryDrafts(), [batch, ...imported], (all) => signOff(headOf(all)), [
      draft('import-voided', { batchId: 'batch-one', reason: 'The wrong file.' }),
    ]);
    expect(open(entries).changes.map(({ run: { id }, change }) => [id, change.kind])).toEqual([
      [ids.run(0), 'import-voided'],
      [ids.run(1), 'import-voided'],
    ]);
  });
});

describe('newEntries', () => {
  const days = (...on: readonly string[]) => on.map((day) => `${day}T10:00:00.000Z`);

  it('lists what no sign-off covers up to a day, with the last of each workstation as its head', async () => {
    const here = await sealChain([...laboratoryDrafts(), run(0, 3), run(1, 3)], {
      at: days('2026-03-02', '2026-03-02', '2026-03-02', '2026-03-03', '2026-03-05'),
    });
    const there = await sealChain([run(2, 3)], { workstation: 'workstation-b', at: days('2026-03-04') });
    const { coverage } = open([...here, ...there]);
    const { listed, heads } = newEntries([...here, ...there], coverage, '2026-03-04');
    expect(listed).toEqual([...here.slice(0, 4), ...there]);
    expect(heads).toEqual([
      { workstation: 'workstation-a', seq: 4, hash: here[3]?.hash },
      { workstation: 'workstation-b', seq: 1, hash: there[0]?.hash },
    ]);
  });

  it('goes by the day on the laboratory’s wall: 23:30 UTC is the next day in Oslo', async () => {
    const entries = await sealChain(laboratoryDrafts(), {
      at: ['2026-03-02T22:30:00.000Z', '2026-03-02T23:30:00.000Z', '2026-03-03T08:00:00.000Z'],
    });
    const { coverage } = open(entries);
    expect(newEntries(entries, coverage, '2026-03-02').listed).toEqual(entries.slice(0, 1));
    expect(newEntries(entries, coverage, '2026-03-03').listed).toEqual(entries);
  });

  it('stops at the first entry after the day, even where a clock was set back behind it', async () => {
    const entries = await sealChain([...laboratoryDrafts(), run(0, 3)], {
      at: days('2026-03-02', '2026-03-09', '2026-03-03', '2026-03-03'),
    });
    const { coverage } = open(entries);
    expect(newEntries(entries, coverage, '2026-03-03').listed).toEqual(entries.slice(0, 1));
  });

  it('lists what was written long ago and came in only after the sign-off', async () => {
    const here = await chain(laboratoryDrafts(), (all) => signOff(headOf(all)));
    const late = await sealChain([run(0, 3)], { workstation: 'workstation-b', at: days('2026-01-05') });
    const { coverage } = open([...here, ...late]);
    const { listed } = newEntries([...here, ...late], coverage, '2026-03-09');
    expect(listed.map(({ kind }) => kind)).toEqual(['run-recorded', 'period-signed']);
  });

  it('has no head where nothing is new', async () => {
    const entries = await sealChain(laboratoryDrafts(), {
      at: days('2026-03-02', '2026-03-02', '2026-03-02'),
    });
    const { coverage } = open(entries);
    expect(newEntries(entries, coverage, '2026-03-01')).toEqual({ listed: [], heads: [] });
  });
});

describe('controlChangesAfterSignOff', () => {
  const aside = (index: number) =>
    draft('control-set-aside', { controlId: controlId(index), isSetAside: true, reason: 'A cold.' });
  const controlVoided = (index: number) =>
    draft('control-voided', { controlId: controlId(index), reason: 'Wrong subject.' });

  it('tells of a control that was changed under its sign-off, and of none that was signed with its change', async () => {
    const entries = await chain(
      laboratoryDrafts(),
      [subjectAdded(), biological(0, 25), biological(1, 25), controlVoided(1)],
      (all) => signOff(headOf(all)),
      [aside(0), biological(2, 25), controlVoided(2)],
    );
    const { logbook, coverage } = open(entries);
    const changes = controlChangesAfterSignOff(logbook, entries, coverage);
    expect(
      changes.map(({ control, change, after, again }) => [control.id, change.kind, after, again]),
    ).toEqual([[controlId(0), 'control-set-aside', logbook.signOffs[0], null]]);
  });

  it('ends with the sign-off that covers the change', async () => {
    const entries = await chain(
      laboratoryDrafts(),
      [subjectAdded(), biological(0, 25)],
      (all) => signOff(headOf(all)),
      [aside(0)],
      (all) => signOff(headOf(all)),
    );
    const { logbook, coverage } = open(entries);
    const [change] = controlChangesAfterSignOff(logbook, entries, coverage);
    expect(change?.again).toBe(logbook.signOffs[1]);
    const [first] = logbook.controls;
    if (first === undefined) throw new Error('the logbook has no control');
    expect(signOffOf(coverage, first)).toBe(logbook.signOffs[0]);
  });
});
