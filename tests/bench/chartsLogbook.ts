/** A logbook of one analyzer with weekly good runs, for the benchmarks in a browser. */
import { seededRandom } from '../../src/core/runLengthSimulation.ts';
import { type Entry, type EntryDraft, versionOf } from '../../src/journal/entries.ts';
import { draft, laboratoryDrafts, runRecorded, sealChain } from '../journal/fixtures.ts';

const week = 7 * 86_400_000;

/** The same each time, but for its dates: the last run is a day old. */
function runDrafts(count: number, now: number): { drafts: EntryDraft[]; at: string[] } {
  const random = seededRandom(2026);
  const scatter = () => {
    let sum = -6;
    for (let part = 0; part < 12; part += 1) sum += random();
    return sum;
  };
  const drafts = [
    ...laboratoryDrafts(),
    ...Array.from({ length: count }, (_, index) =>
      draft(
        'run-recorded',
        runRecorded(index, {
          // Real series do not reach back to the year 1930: the runs of 5,000 weeks lie a few hours apart.
          madeAt: new Date(now - 86_400_000 - ((count - 1 - index) * 500 * week) / count).toISOString(),
          reading: {
            vaL: Math.round((3.48 + scatter() * 0.035) * 100) / 100,
            vaReportedAs: 'BTPS',
            dlco: Math.round(scatter() * 12) / 100,
            dlcoUnit: 'mL/min/mmHg',
          },
        }),
      ),
    ),
  ];
  const at = drafts.map((_, index) => new Date(now - (drafts.length - index) * 1000).toISOString());
  return { drafts, at };
}

/** Sealed as the browser keeps them. */
export function sealedRuns(count: number, now: number): Promise<Entry[]> {
  const { drafts, at } = runDrafts(count, now);
  return sealChain(drafts, { at });
}

/** For what never looks at a hash: sealing a hundred thousand takes half a minute. */
export function unsealedRuns(count: number, now: number): Entry[] {
  const { drafts, at } = runDrafts(count, now);
  return drafts.map((draft, index) => {
    const place = {
      workstation: 'workstation-a',
      seq: index + 1,
      prev: '',
      at: at[index] ?? '',
      zone: 'Europe/Oslo',
    };
    // The pair of kind and body is right by the draft; the compiler cannot follow it through the union.
    return { ...draft, ...place, version: versionOf(draft.kind), hash: '0'.repeat(64) } as Entry;
  });
}
