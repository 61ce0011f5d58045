/** What of a logbook the judging of a file needs, as plain values that another thread can be given. */
import type { PublishedLimits } from '../core/index.ts';
import type { AnalyzerDescription, RunContent, SyringeDescription } from '../journal/entries.ts';
import type { Logbook, LoggedRun } from '../journal/logbook.ts';

export interface KnownAnalyzer {
  id: string;
  description: AnalyzerDescription;
  retiredAt: string | null;
}

export interface KnownSyringe {
  id: string;
  description: SyringeDescription;
}

export interface KnownPerson {
  id: string;
  name: string;
  initials: string;
}

/** A run of the logbook, as far as a row can be the same, stand beside it or follow it. */
export interface KnownRun {
  analyzerId: string;
  route: string;
  method: string;
  at: number;
  barometricMmHg: number;
}

/** How a run of the same identity stands in the logbook. */
export type Presence = 'there' | 'voided' | 'batch-voided';

export interface KnownLogbook {
  analyzers: readonly KnownAnalyzer[];
  syringes: readonly KnownSyringe[];
  people: readonly KnownPerson[];
  /** Not voided, by the moment they were made. */
  runs: readonly KnownRun[];
  presence: ReadonlyMap<string, Presence>;
  /** The id of the run of an identity, struck out or not, and every run's. */
  runIds: { byIdentity: ReadonlyMap<string, string>; all: ReadonlySet<string> };
  /** This moment, in ms. */
  now: number;
  /** IANA name of the zone in which dates of the file are taken. */
  zone: string;
  /** Those that judge runs of a time when the laboratory had adopted none. */
  limits: PublishedLimits;
  limitEditions: Logbook['limitEditions'];
}

type Identified = Pick<RunContent, 'analyzerId' | 'method' | 'route' | 'madeAt' | 'reading'>;

/**
 * What makes a run the same run: its analyzer, method and route, the instant it was made at, to the millisecond, and the
 * VA and DLCO that the analyzer reported, each with its condition or unit. The room, the conversion, who made it and
 * what was remarked are not part of it: a file that is imported again with another constant pressure adds nothing.
 */
export function runIdentity({ analyzerId, method, route, madeAt, reading }: Identified): string {
  const { vaL, vaReportedAs, dlco, dlcoUnit } = reading;
  return JSON.stringify([analyzerId, method, route, madeAt, vaL, vaReportedAs, dlco, dlcoUnit]);
}

export function knownFrom(
  logbook: Pick<Logbook, 'analyzers' | 'syringes' | 'technologists' | 'runs' | 'imports' | 'limitEditions'>,
  surroundings: { now: number; zone: string; limits: PublishedLimits },
): KnownLogbook {
  const presence = new Map<string, Presence>();
  const byIdentity = new Map<string, string>();
  const runs: KnownRun[] = [];
  for (const run of logbook.runs) {
    const { body } = run;
    const state = presenceOf(run, logbook.imports);
    // An amended run is still the run that its file has.
    for (const content of [run.entry.body, body]) {
      const identity = runIdentity(content);
      if (state !== 'there' && presence.has(identity)) continue;
      presence.set(identity, state);
      byIdentity.set(identity, run.id);
    }
    if (state !== 'there') continue;
    const { analyzerId, route, method } = body;
    runs.push({
      analyzerId,
      route,
      method,
      at: run.simulation.at,
      barometricMmHg: body.ambient.barometricMmHg,
    });
  }
  return {
    analyzers: [...logbook.analyzers.values()].map(({ id, description, retired }) => ({
      id,
      description,
      retiredAt: retired?.at ?? null,
    })),
    syringes: [...logbook.syringes.values()].map(({ id, description }) => ({ id, description })),
    people: [...logbook.technologists.values()].map(({ id, name, initials }) => ({ id, name, initials })),
    runs,
    presence,
    runIds: { byIdentity, all: new Set(logbook.runs.map(({ id }) => id)) },
    limitEditions: logbook.limitEditions,
    ...surroundings,
  };
}

function presenceOf({ voided, entry }: LoggedRun, imports: Logbook['imports']): Presence {
  if (voided === null) return 'there';
  const { origin } = entry.body;
  const batch = origin.kind === 'import' ? imports.get(origin.batchId) : undefined;
  // A run that was struck out for itself stays out, whatever became of its batch.
  return batch?.voided === voided ? 'batch-voided' : 'voided';
}
