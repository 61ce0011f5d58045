/** Entries about checks, service, syringes and cylinders, for the tests of what is due. */
import type { EntryBody, EntryDraft } from '../../src/journal/entries.ts';
import { draft, ids } from './laboratory.ts';

let made = 0;
const newId = (kind: string) => `${kind}-number-${++made}`;

/** A check noted as passed on the analyzer, or on what `changes` name. */
export const checkDone = (
  check: EntryBody<'check-done'>['check'],
  doneAt: string,
  changes: Partial<EntryBody<'check-done'>> = {},
): EntryDraft =>
  draft('check-done', {
    checkId: newId('check'),
    check,
    analyzerId: ids.analyzer,
    syringeId: null,
    technologistId: ids.supervisor,
    doneAt,
    outcome: 'passed',
    volume: null,
    validUntil: null,
    note: 'As it should be.',
    investigates: null,
    ...changes,
  });

export const ofSyringe = { analyzerId: null, syringeId: ids.syringe };
export const ofLaboratory = { analyzerId: null, syringeId: null };

export const scheduleSet = (
  check: EntryBody<'schedule-set'>['check'],
  changes: Partial<EntryBody<'schedule-set'>> = {},
): EntryDraft =>
  draft('schedule-set', {
    scheduleId: newId('schedule'),
    check,
    isMade: true,
    every: { unit: 'days', count: 14 },
    announceDays: 2,
    reason: 'Decided at the quality meeting.',
    ...changes,
  });

export const serviceSet = (inService: boolean, from: string, analyzerId: string = ids.analyzer): EntryDraft =>
  draft('service-set', {
    serviceId: newId('service'),
    analyzerId,
    inService,
    from,
    reason: inService ? 'Repaired.' : 'Waits for a valve.',
  });

export const dropped = (droppedAt: string): EntryDraft =>
  draft('syringe-dropped', {
    dropId: newId('drop'),
    syringeId: ids.syringe,
    droppedAt,
    description: 'Fell from the trolley.',
  });

export const cylinderAdded = (expiresOn: string | null, cylinderId = 'cylinder-under-test'): EntryDraft =>
  draft('cylinder-added', {
    cylinderId,
    label: 'Gas 7',
    serial: '',
    contents: [{ gas: 'CO', fraction: 0.003 }],
    expiresOn,
  });

export const cylinderFitted = (
  cylinderId: string | null,
  fittedAt: string,
  analyzerId: string = ids.analyzer,
): EntryDraft => draft('cylinder-fitted', { fittingId: newId('fitting'), analyzerId, cylinderId, fittedAt });
