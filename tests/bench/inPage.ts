/** What the benchmark in a browser measures inside a page, beside the plain library call that it is held against. */
import Dexie from 'dexie';
import Papa from 'papaparse';
import { publishedLimits2017 } from '../../src/core/index.ts';
import { knownFrom } from '../../src/exchange/importKnown.ts';
import { outlineOf } from '../../src/exchange/importOutline.ts';
import { proposePlan } from '../../src/exchange/importPlan.ts';
import { judgeImport } from '../../src/exchange/importRuns.ts';
import { readImportTable } from '../../src/exchange/importTable.ts';
import { runsToCsv } from '../../src/exchange/runsCsv.ts';
import { chainHeads } from '../../src/journal/chain.ts';
import { foldJournal } from '../../src/journal/fold.ts';
import { assessEach } from '../../src/views/assessEach.ts';
import { readMeasured } from '../../src/views/runForm/readMeasured.ts';
import { unsealedRuns } from './chartsLogbook.ts';

const now = Date.now();
const rounds = 3;

/** The quickest of some rounds, in ms: what disturbs a round only ever makes it slower. */
function quickest(work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

function laboratoryOf(count: number) {
  const entries = unsealedRuns(count, now);
  const logbook = foldJournal(entries);
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  return { logbook, assessments, heads: chainHeads(entries) };
}

/** The export of so many runs, and the library writing the same cells. */
export function measureExport(count: number) {
  const { logbook, assessments, heads } = laboratoryOf(count);
  const csv = runsToCsv(logbook, assessments, { heads });
  const cells = Papa.parse<string[]>(csv).data;
  return {
    ours: quickest(() => runsToCsv(logbook, assessments, { heads })),
    plain: quickest(() => Papa.unparse(cells, { newline: '\r\n' })),
  };
}

/** A file of so many runs read, every row of it judged; and the library parting the same file into cells. */
export function measureImport(count: number) {
  const { logbook, assessments, heads } = laboratoryOf(count);
  const csv = runsToCsv(logbook, assessments, { heads });
  const known = knownFrom(
    { ...logbook, runs: [] },
    { now, zone: 'Europe/Oslo', limits: publishedLimits2017 },
  );
  let accepted = 0;
  const ours = quickest(() => {
    const read = readImportTable(csv);
    if (read.state === 'refused') throw new Error(read.sentence);
    const { plan } = proposePlan(outlineOf(read.table));
    const { counts } = judgeImport(read.table, plan, known, readMeasured);
    accepted = counts.accepted + counts.warning;
  });
  if (accepted !== count) throw new Error(`${accepted} of ${count} rows were taken`);
  return { ours, plain: quickest(() => Papa.parse(csv)) };
}

/** One put of a run into a bare database of the same durability, in ms: the middle of many. */
export async function measurePut(): Promise<number> {
  const database = new Dexie('bare', { chromeTransactionDurability: 'strict', cache: 'disabled' });
  database.version(1).stores({ entries: '++' });
  const [run] = unsealedRuns(1, now).slice(-1);
  const times: number[] = [];
  for (let count = 0; count < 40; count += 1) {
    const start = performance.now();
    await database.table('entries').put(run);
    times.push(performance.now() - start);
  }
  await database.delete();
  times.sort((one, other) => one - other);
  return times[20] ?? 0;
}
