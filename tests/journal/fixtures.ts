/** A small invented laboratory as drafts, for the tests of journal, store and exchange. */
import { sealEntry } from '../../src/journal/chain.ts';
import type { Entry, EntryBody, EntryDraft, EntryKind } from '../../src/journal/entries.ts';

export const ids = {
  supervisor: 'technologist-supervisor',
  technologist: 'technologist-bench',
  syringe: 'syringe-dedicated',
  analyzer: 'analyzer-room-2',
  run: (number: number) => `run-number-${number}`,
};

export const technologistAdded: EntryBody<'technologist-added'> = {
  technologistId: ids.supervisor,
  name: 'Ilse Marong',
  initials: 'IM',
  role: 'supervisor',
};

export const syringeAdded: EntryBody<'syringe-added'> = {
  syringeId: ids.syringe,
  label: 'Dedicated 3 L syringe',
  serial: '',
  volumeL: 3,
  deadSpaceL: 0.11,
  calibrationDueOn: '2026-09-30',
  leakCheckDueOn: null,
};

export const analyzerAdded: EntryBody<'analyzer-added'> = {
  analyzerId: ids.analyzer,
  label: 'Room 2',
  place: 'Ground floor',
  serial: '',
  syringeId: ids.syringe,
  route: 'patient-test',
  conversion: { kind: 'computed', assumed: 'ATPD' },
  vaReportedAs: 'BTPS',
  analyzerDeadSpaceL: 0,
  volumeInsideL: 0,
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
};

export function runRecorded(
  number: number,
  changes: Partial<EntryBody<'run-recorded'>> = {},
): EntryBody<'run-recorded'> {
  const series = { n: 0, mean: null, sd: null, z: null, signals: [] };
  return {
    runId: ids.run(number),
    origin: { kind: 'bench' },
    madeAt: '2026-03-02T07:45:00.000Z',
    analyzerId: ids.analyzer,
    syringeId: ids.syringe,
    technologistId: ids.supervisor,
    method: 'syringe',
    route: 'patient-test',
    reason: 'weekly',
    ambient: { temperatureC: 22, barometricMmHg: 760 },
    pressureAsTyped: { value: 760, unit: 'mmHg' },
    reading: { vaL: 3.45, vaReportedAs: 'BTPS', dlco: 0.12, dlcoUnit: 'mL/min/mmHg' },
    conversion: { kind: 'computed', assumed: 'ATPD' },
    syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 },
    analyzerDeadSpaceL: 0,
    limits: {
      edition: '2017',
      source: 'Eur Respir J 2017;49:1600016, equipment table',
      vaToleranceL: 0.3,
      dlcoMlMinMmHg: 0.5,
      dlcoMmolMinKPa: 0.166,
      volumeCheckFraction: 0.03,
      breathHoldS: { target: 10, tolerance: 2 },
    },
    comment: '',
    judged: {
      word: 'pass',
      establishing: true,
      failureOpen: false,
      va: { ...series, value: 2.97 },
      dlco: { ...series, value: 0.12 },
    },
    ...changes,
  };
}

let drafted = 0;
export function draft<K extends EntryKind>(
  kind: K,
  body: EntryBody<K>,
  id = `entry-number-${++drafted}`,
): EntryDraft {
  // The pair of kind and body is right by the signature; the compiler cannot follow it through the union.
  return { id, by: ids.supervisor, kind, body } as EntryDraft;
}

export const laboratoryDrafts = (): EntryDraft[] => [
  draft('technologist-added', technologistAdded),
  draft('syringe-added', syringeAdded),
  draft('analyzer-added', analyzerAdded),
];

/** Seals drafts as one workstation's chain, a minute apart from `from` on, or at the times given. */
export async function sealChain(
  drafts: readonly EntryDraft[],
  {
    workstation = 'workstation-a',
    from = '2026-03-02T08:00:00.000Z',
    at = [] as string[],
    zone = 'Europe/Oslo',
  } = {},
): Promise<Entry[]> {
  const chain: Entry[] = [];
  let prev = '';
  for (const [index, one] of drafts.entries()) {
    const instant = at[index] ?? new Date(Date.parse(from) + index * 60_000).toISOString();
    const entry = await sealEntry(one, { workstation, seq: index + 1, prev, at: instant, zone });
    chain.push(entry);
    prev = entry.hash;
  }
  return chain;
}
