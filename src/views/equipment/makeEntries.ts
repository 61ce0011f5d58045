/** What the equipment forms write. Ids are drawn here, when the button is pressed. */
import type {
  AnalyzerDescription,
  EntryDraft,
  EventType,
  SyringeDescription,
  TechnologistDescription,
} from '../../journal/entries.ts';
import type { Analyzer, Syringe, Technologist } from '../../journal/logbook.ts';
import { movesTheMean } from './readForms.ts';

const newId = () => crypto.randomUUID();

/** The very first person of a logbook adds themself: `by` is left out. */
export function addPerson(description: TechnologistDescription, by?: string): EntryDraft[] {
  const technologistId = newId();
  return [
    {
      id: newId(),
      by: by ?? technologistId,
      kind: 'technologist-added',
      body: { ...description, technologistId },
    },
  ];
}

export function addSyringe(description: SyringeDescription, by: string): EntryDraft[] {
  return [{ id: newId(), by, kind: 'syringe-added', body: { ...description, syringeId: newId() } }];
}

export function addAnalyzer(description: AnalyzerDescription, by: string): EntryDraft[] {
  return [{ id: newId(), by, kind: 'analyzer-added', body: { ...description, analyzerId: newId() } }];
}

export function changePerson(
  person: Technologist,
  description: TechnologistDescription,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    {
      id: newId(),
      by,
      kind: 'technologist-changed',
      body: { ...description, technologistId: person.id, reason },
    },
  ];
}

export function changeSyringe(
  syringe: Syringe,
  description: SyringeDescription,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    { id: newId(), by, kind: 'syringe-changed', body: { ...description, syringeId: syringe.id, reason } },
  ];
}

/**
 * A change of conversion, reported condition, dead space or plunger start moves every later result: it starts a new
 * baseline in the same save, so that no run before it is ever averaged with one after it.
 */
export function changeAnalyzer(
  analyzer: Analyzer,
  description: AnalyzerDescription,
  by: string,
  reason: string,
  now: number,
): EntryDraft[] {
  const change: EntryDraft = {
    id: newId(),
    by,
    kind: 'analyzer-changed',
    body: { ...description, analyzerId: analyzer.id, reason },
  };
  return movesTheMean(analyzer.description, description)
    ? [change, ...startBaseline(analyzer.id, new Date(now).toISOString(), reason, by)]
    : [change];
}

export function startBaseline(analyzerId: string, from: string, reason: string, by: string): EntryDraft[] {
  return [
    { id: newId(), by, kind: 'baseline-started', body: { baselineId: newId(), analyzerId, from, reason } },
  ];
}

export function recordEvent(
  event: { analyzerId: string; happenedAt: string; type: EventType; description: string },
  startsBaseline: boolean,
  by: string,
): EntryDraft[] {
  const entry: EntryDraft = { id: newId(), by, kind: 'event-recorded', body: { eventId: newId(), ...event } };
  return startsBaseline
    ? [entry, ...startBaseline(event.analyzerId, event.happenedAt, event.description, by)]
    : [entry];
}

export type Retirable = { kind: 'analyzer' | 'syringe' | 'technologist'; id: string };

export function retire({ kind, id }: Retirable, by: string, reason: string): EntryDraft[] {
  switch (kind) {
    case 'analyzer':
      return [{ id: newId(), by, kind: 'analyzer-retired', body: { analyzerId: id, reason } }];
    case 'syringe':
      return [{ id: newId(), by, kind: 'syringe-retired', body: { syringeId: id, reason } }];
    case 'technologist':
      return [{ id: newId(), by, kind: 'technologist-retired', body: { technologistId: id, reason } }];
  }
}
