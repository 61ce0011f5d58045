/** From stored rows to all that a package is made from: what the screens show, worked out once more on whichever thread asks. */
import type { PackageSource } from '../../exchange/package/source.ts';
import { readEntry } from '../../journal/entries.ts';
import { foldJournal } from '../../journal/fold.ts';
import { verifySignatures } from '../../journal/signature.ts';
import { assessEach } from '../assessEach.ts';
import { assessControls, listControlFailures } from '../controlAssessments.ts';
import { listFailures } from '../failures.ts';

export async function packageSourceOf(rawRows: readonly unknown[]): Promise<PackageSource> {
  const entries = rawRows.flatMap((row) => {
    const read = readEntry(row);
    return read.state === 'known' ? [read.entry] : [];
  });
  const logbook = foldJournal(entries);
  const { assessments } = assessEach(
    logbook.runs.map(({ simulation }) => simulation),
    logbook,
  );
  const controls = assessControls(logbook);
  return {
    rawRows,
    entries,
    logbook,
    assessments,
    failures: listFailures(logbook, assessments),
    controls,
    controlFailures: listControlFailures(logbook, controls),
    signatures: await verifySignatures(entries, logbook.keys),
  };
}
