import { describe, expect, it } from 'vitest';
import { foldJournal } from '../../../src/journal/fold.ts';
import { historyOfControl } from '../../../src/views/control/controlHistory.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { biological, controlId, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, laboratoryDrafts } from '../laboratory.ts';

const closed = (openedBy: number, quantity: 'dlco' | 'va') =>
  draft('control-closed', {
    closureId: `closure-of-control-${openedBy}`,
    analyzerId: ids.analyzer,
    failures: [
      {
        series: { kind: 'biological', subjectId: subject, quantity },
        openedByControlId: controlId(openedBy),
      },
    ],
    closedAt: '2026-03-01T08:00:00.000Z',
    cause: 'Sample line leaked',
    correctiveAction: 'Line replaced.',
    lookBack: 'Nobody was tested.',
    signature: null,
  });

describe('the history of a control', () => {
  it('keeps the closure of a failure that it no longer opens, since it was set aside', async () => {
    const entries = await sealChain(
      [
        ...laboratoryDrafts(),
        subjectAdded(),
        biological(0, 29.4),
        biological(1, 25),
        closed(1, 'va'),
        closed(0, 'dlco'),
        draft('control-set-aside', { controlId: controlId(0), isSetAside: true, reason: 'Had given blood' }),
      ],
      { from: '2026-03-01T00:00:00.000Z' },
    );
    const logged = foldJournal(entries).controls.find(({ id }) => id === controlId(0));
    if (logged === undefined) throw new Error('no such control');
    expect(historyOfControl(logged, entries, []).map(({ what, reason }) => [what, reason])).toEqual([
      ['Recorded', ''],
      ['Failure closed, DLCO', 'Sample line leaked. Line replaced.'],
      ['Set aside', 'Had given blood'],
    ]);
  });
});
