import type { Entry, Investigation } from './entries.ts';

/** What the whole journal holds, by id. */
interface Known {
  technologists: ReadonlyMap<string, unknown>;
  analyzers: ReadonlyMap<string, unknown>;
  syringes: ReadonlyMap<string, unknown>;
  runs: ReadonlyMap<string, unknown>;
  cylinders: ReadonlyMap<string, unknown>;
  subjects: ReadonlyMap<string, unknown>;
  controls: ReadonlyMap<string, unknown>;
}

/** What an entry refers to and the whole journal does not hold. The entry still counts: it is a record. */
export function unknownReferences(
  entry: Entry,
  { technologists, analyzers, syringes, runs, cylinders, subjects, controls }: Known,
): string[] {
  const references: [ReadonlyMap<string, unknown>, id: string, what: string][] = [];
  // After a loss there may be nobody left in the logbook to name.
  if (entry.kind !== 'entries-lost') references.push([technologists, entry.by, 'technologist']);
  const investigated = (investigation: Investigation | undefined) => {
    if (investigation !== undefined) references.push([runs, investigation.runId, 'run']);
  };
  switch (entry.kind) {
    case 'analyzer-added':
    case 'analyzer-changed':
      references.push([syringes, entry.body.syringeId, 'syringe']);
      break;
    case 'run-recorded':
      investigated(entry.body.investigates);
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      references.push([syringes, entry.body.syringeId, 'syringe']);
      references.push([technologists, entry.body.technologistId, 'technologist']);
      break;
    case 'run-amended':
      investigated(entry.body.run.investigates);
      references.push([analyzers, entry.body.run.analyzerId, 'analyzer']);
      references.push([syringes, entry.body.run.syringeId, 'syringe']);
      references.push([technologists, entry.body.run.technologistId, 'technologist']);
      break;
    case 'key-registered':
      references.push([technologists, entry.body.technologistId, 'technologist']);
      break;
    case 'check-done':
      if (entry.body.analyzerId !== null) references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      if (entry.body.syringeId !== null) references.push([syringes, entry.body.syringeId, 'syringe']);
      references.push([technologists, entry.body.technologistId, 'technologist']);
      investigated(entry.body.investigates ?? undefined);
      break;
    case 'syringe-dropped':
      references.push([syringes, entry.body.syringeId, 'syringe']);
      break;
    case 'cylinder-fitted':
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      if (entry.body.cylinderId !== null) references.push([cylinders, entry.body.cylinderId, 'cylinder']);
      break;
    case 'subject-state-set':
      references.push([subjects, entry.body.subjectId, 'subject']);
      break;
    case 'control-recorded':
    case 'control-amended': {
      const { control } = entry.body;
      investigated(control.investigates);
      references.push([analyzers, control.analyzerId, 'analyzer']);
      references.push([technologists, control.technologistId, 'technologist']);
      if (control.kind === 'biological') references.push([subjects, control.subjectId, 'subject']);
      else
        for (const { cylinderId } of control.levels)
          if (cylinderId !== undefined) references.push([cylinders, cylinderId, 'cylinder']);
      break;
    }
    case 'control-closed':
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      for (const { openedByControlId } of entry.body.failures)
        references.push([controls, openedByControlId, 'control']);
      break;
    case 'gap-explained':
    case 'service-set':
    case 'policy-set':
    case 'event-recorded':
    case 'baseline-started':
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      break;
    case 'period-signed':
      for (const { analyzerId } of entry.body.analyzers) references.push([analyzers, analyzerId, 'analyzer']);
      break;
    case 'baseline-accepted':
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      for (const id of entry.body.runIds) references.push([runs, id, 'run']);
      break;
    case 'action-taken':
    case 'look-back-reviewed':
    case 'failure-closed': {
      const { body } = entry;
      const person =
        'reviewerId' in body ? body.reviewerId : 'technologistId' in body ? body.technologistId : null;
      if (person !== null) references.push([technologists, person, 'technologist']);
      for (const id of 'proofRunIds' in body ? (body.proofRunIds ?? []) : [])
        references.push([runs, id, 'run']);
      references.push([analyzers, entry.body.analyzerId, 'analyzer']);
      for (const { openedByRunId } of entry.body.failures) references.push([runs, openedByRunId, 'run']);
      break;
    }
    default: // the others name only what `apply` has looked for
  }
  const complaints = references
    .filter(([known, id]) => !known.has(id))
    .map(([, id, what]) => `Refers to ${what} ${id}, which is not in the logbook.`);
  return [...new Set(complaints)]; // one closure can name a run for each of its series
}
