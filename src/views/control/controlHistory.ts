/** Every entry about one control, as lines of its history. Pure. */
import type { Control, Entry } from '../../journal/entries.ts';
import type { LoggedControl } from '../../journal/logbook.ts';
import { contentsOf } from '../controlAsWritten.ts';
import { asSentence } from '../parts/asSentence.ts';
import { type ContentField, changesBetween } from '../parts/contentFields.ts';
import type { HistoryLine } from '../parts/history.tsx';
import { seriesName } from './words.ts';

/**
 * Oldest first by its place in the journal: the control, its amendments, its void, its setting aside, and the closures of what it
 * opened. A control that is put right after a closure opens nothing any more: then the closure is told here and nowhere else.
 */
export function historyOfControl(
  logged: LoggedControl,
  entries: readonly Entry[],
  fields: readonly ContentField<Control>[],
): HistoryLine[] {
  const contents = contentsOf(logged);
  const amended = logged.amendments.map((entry, index): HistoryLine => {
    const before = contents[index] ?? entry.body.control;
    const changes = changesBetween(before, entry.body.control, fields);
    return { entry, what: 'Amended', reason: entry.body.reason, changes };
  });
  const others = entries.flatMap((entry): HistoryLine[] => {
    const line = (what: string, reason: string): HistoryLine[] => [{ entry, what, reason, changes: [] }];
    if (entry.kind === 'control-voided' && entry.body.controlId === logged.id) {
      return line('Voided', entry.body.reason);
    }
    if (entry.kind === 'control-set-aside' && entry.body.controlId === logged.id) {
      return line(entry.body.isSetAside ? 'Set aside' : 'Taken back in', entry.body.reason);
    }
    if (entry.kind === 'control-closed') {
      const { failures, cause, correctiveAction } = entry.body;
      const closed = failures.filter(({ openedByControlId }) => openedByControlId === logged.id);
      if (closed.length === 0) return [];
      const names = closed.map(({ series }) => seriesName(series)).join(', ');
      return line(
        `Failure closed, ${names}`,
        [cause, correctiveAction].filter(Boolean).map(asSentence).join(' '),
      );
    }
    return [];
  });
  const recorded: HistoryLine = { entry: logged.entry, what: 'Recorded', reason: '', changes: [] };
  // sort is stable: entries of one save, which share an instant, stay in this order.
  return [recorded, ...amended, ...others].sort(
    (one, other) => Date.parse(one.entry.at) - Date.parse(other.entry.at),
  );
}
