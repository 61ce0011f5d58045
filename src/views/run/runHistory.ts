/** Every entry about one run, as lines of its history. Pure. */
import type { Entry } from '../../journal/entries.ts';
import type { LoggedRun } from '../../journal/logbook.ts';
import { asSentence } from '../parts/asSentence.ts';
import { changesBetween } from '../parts/contentFields.ts';
import type { HistoryLine } from '../parts/history.tsx';
import { quantityWords } from '../parts/words.ts';
import type { RunField } from './describeRun.ts';

/**
 * Oldest first by its place in the journal: the run, its amendments, its voids, its setting aside, the import that brought or took
 * it, and the closures of what it opened. A run that is put right after a closure opens nothing any more: then the closure is told
 * here and nowhere else.
 */
export function historyOfRun(
  run: LoggedRun,
  entries: readonly Entry[],
  fields: readonly RunField[],
): HistoryLine[] {
  const { origin } = run.body;
  const batchId = origin.kind === 'import' ? origin.batchId : null;
  const contents = [run.entry.body, ...run.amendments.map(({ body }) => body.run)];
  const amended = run.amendments.map((entry, index): HistoryLine => {
    const before = contents[index] ?? entry.body.run;
    const changes = changesBetween(before, entry.body.run, fields);
    return { entry, what: 'Amended', reason: entry.body.reason, changes };
  });
  const others = entries.flatMap((entry): HistoryLine[] => {
    const line = (what: string, reason = ''): HistoryLine[] => [{ entry, what, reason, changes: [] }];
    switch (entry.kind) {
      case 'runs-imported':
        return entry.body.batchId === batchId ? line(`Imported from ${entry.body.fileName}`) : [];
      case 'import-voided':
        return entry.body.batchId === batchId ? line('Its import voided', entry.body.reason) : [];
      case 'run-voided':
        return entry.body.runId === run.id ? line('Voided', entry.body.reason) : [];
      case 'run-set-aside':
        return entry.body.runId === run.id
          ? line(entry.body.isSetAside ? 'Set aside' : 'Taken back in', entry.body.reason)
          : [];
      case 'failure-closed': {
        const closed = entry.body.failures.filter(({ openedByRunId }) => openedByRunId === run.id);
        if (closed.length === 0) return [];
        const names = closed.map(({ quantity }) => quantityWords[quantity]).join(', ');
        const { cause = '', correctiveAction, reason } = entry.body;
        return line(
          `Failure closed, ${names}`,
          [cause, correctiveAction, reason].filter(Boolean).map(asSentence).join(' '),
        );
      }
      default:
        return [];
    }
  });
  const recorded: HistoryLine = {
    entry: run.entry,
    what: origin.kind === 'import' ? `Recorded from row ${origin.row} of the file` : 'Recorded',
    reason: '',
    changes: [],
  };
  // sort is stable: entries of one save, which share an instant, stay in this order.
  return [
    ...others.filter(({ entry }) => entry.kind === 'runs-imported'),
    recorded,
    ...amended,
    ...others.filter(({ entry }) => entry.kind !== 'runs-imported'),
  ].sort((one, other) => Date.parse(one.entry.at) - Date.parse(other.entry.at));
}
