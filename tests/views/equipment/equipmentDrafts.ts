/** What happens to the equipment of the invented laboratory, as drafts. */
import type { EntryBody, EntryDraft } from '../../../src/journal/entries.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids } from '../laboratory.ts';

export const cylinderId = 'cylinder-number-4';
export const testGas: EntryBody<'cylinder-added'> = {
  cylinderId,
  label: 'Test gas 4',
  serial: '',
  contents: [
    { gas: 'CO', fraction: 0.003 },
    { gas: 'He', fraction: 0.1 },
  ],
  expiresOn: '2026-03-31',
};
let numbered = 0;
export const service = (from: string, inService: boolean): EntryDraft =>
  draft('service-set', {
    serviceId: `service-${++numbered}`,
    analyzerId: ids.analyzer,
    inService,
    from,
    reason: inService ? 'Tested after the repair.' : 'Leaks.',
  });
export const fitted = (fittedAt: string, cylinder: string | null, analyzerId = ids.analyzer): EntryDraft =>
  draft('cylinder-fitted', {
    fittingId: `fitting-${++numbered}`,
    analyzerId,
    cylinderId: cylinder,
    fittedAt,
  });
export const otherRoom = draft('analyzer-added', {
  ...analyzerAdded,
  analyzerId: 'analyzer-room-3',
  label: 'Room 3',
});
