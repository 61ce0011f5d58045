/** What the equipment forms write. Ids are drawn here, when the button is pressed. */
import type {
  AnalyzerDescription,
  CylinderDescription,
  EntryDraft,
  EventType,
  SubjectDescription,
  SubjectState,
  SyringeDescription,
  TechnologistDescription,
} from '../../journal/entries.ts';
import type { Analyzer, Cylinder, Subject, Syringe, Technologist } from '../../journal/logbook.ts';
import { contentsInShort } from '../gases.ts';
import { startBaseline } from '../newBaseline.ts';
import { movesTheMean } from './consequences.ts';

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

export function addCylinder(description: CylinderDescription, by: string): EntryDraft[] {
  return [{ id: newId(), by, kind: 'cylinder-added', body: { ...description, cylinderId: newId() } }];
}

export function addSubject(description: SubjectDescription, by: string): EntryDraft[] {
  return [{ id: newId(), by, kind: 'subject-added', body: { ...description, subjectId: newId() } }];
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

/** With a new baseline from `now` on (ms) on each of the analyzers named: those whose results it moves from here on. */
export function changeSyringe(
  syringe: Syringe,
  description: SyringeDescription,
  by: string,
  reason: string,
  { startsBaselineOn, now }: { startsBaselineOn: readonly string[]; now: number },
): EntryDraft[] {
  return [
    { id: newId(), by, kind: 'syringe-changed', body: { ...description, syringeId: syringe.id, reason } },
    ...startsBaselineOn.flatMap((analyzerId) =>
      startBaseline(analyzerId, new Date(now).toISOString(), reason, by),
    ),
  ];
}

export function changeCylinder(
  cylinder: Cylinder,
  description: CylinderDescription,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    { id: newId(), by, kind: 'cylinder-changed', body: { ...description, cylinderId: cylinder.id, reason } },
  ];
}

export function changeSubject(
  subject: Subject,
  description: SubjectDescription,
  by: string,
  reason: string,
): EntryDraft[] {
  return [
    { id: newId(), by, kind: 'subject-changed', body: { ...description, subjectId: subject.id, reason } },
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

/**
 * A cylinder fitted to an analyzer, or none in place of the one that was: the fitting, which says from which gas the
 * results come, and the event, which stands on the charts.
 */
export function fitCylinder(
  fitting: { analyzerId: string; fittedAt: string },
  cylinder: Cylinder | null,
  startsBaseline: boolean,
  by: string,
): EntryDraft[] {
  const description =
    cylinder === null
      ? 'Taken off, no other fitted.'
      : `${cylinder.description.label} fitted: ${contentsInShort(cylinder.description)}.`;
  return [
    {
      id: newId(),
      by,
      kind: 'cylinder-fitted',
      body: { fittingId: newId(), cylinderId: cylinder?.id ?? null, ...fitting },
    },
    ...recordEvent(
      { analyzerId: fitting.analyzerId, happenedAt: fitting.fittedAt, type: 'cylinder', description },
      startsBaseline,
      by,
    ),
  ];
}

export function setService(
  service: { analyzerId: string; inService: boolean; from: string; reason: string },
  by: string,
): EntryDraft[] {
  return [{ id: newId(), by, kind: 'service-set', body: { serviceId: newId(), ...service } }];
}

export function setSubjectState(
  setting: { subjectId: string; state: SubjectState; from: string; reason: string },
  by: string,
): EntryDraft[] {
  return [{ id: newId(), by, kind: 'subject-state-set', body: { settingId: newId(), ...setting } }];
}

export function dropSyringe(
  drop: { syringeId: string; droppedAt: string; description: string },
  by: string,
): EntryDraft[] {
  return [{ id: newId(), by, kind: 'syringe-dropped', body: { dropId: newId(), ...drop } }];
}

export type Retirable = {
  kind: 'analyzer' | 'syringe' | 'cylinder' | 'subject' | 'technologist';
  id: string;
};

export function retire({ kind, id }: Retirable, by: string, reason: string): EntryDraft[] {
  switch (kind) {
    case 'analyzer':
      return [{ id: newId(), by, kind: 'analyzer-retired', body: { analyzerId: id, reason } }];
    case 'syringe':
      return [{ id: newId(), by, kind: 'syringe-retired', body: { syringeId: id, reason } }];
    case 'cylinder':
      return [{ id: newId(), by, kind: 'cylinder-retired', body: { cylinderId: id, reason } }];
    case 'subject':
      return [{ id: newId(), by, kind: 'subject-retired', body: { subjectId: id, reason } }];
    case 'technologist':
      return [{ id: newId(), by, kind: 'technologist-retired', body: { technologistId: id, reason } }];
  }
}
