/** What the form of a check holds: text as it was typed, and choices. Pure. */
import type { PressureUnit } from '../../core/index.ts';
import type { EntryBody, Gas, Linearity, NotedCheck } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import { inField } from '../parts/figures.ts';
import { localMinute } from '../parts/localTime.ts';

export type Outcome = EntryBody<'check-done'>['outcome'];

/** The three flows of a volume calibration check, in the order in which they are read. */
export const flowNames = ['slow', 'middle', 'fast'] as const;
export type FlowName = (typeof flowNames)[number];

export interface VolumeDraft {
  /** Litres. */
  expected: string;
  readings: Readonly<Record<FlowName, string>>;
  /** L/s. */
  flows: Readonly<Record<FlowName, string>>;
}

/** The `key` tells the rows apart while they are typed; it goes nowhere. */
export interface PointDraft {
  key: string;
  expected: string;
  read: string;
}

export interface GasDraft {
  key: string;
  gas: Gas;
  unit: Linearity['unit'];
  fullScale: string;
  points: readonly PointDraft[];
}

export interface SyringeDraft {
  /** Litres. */
  measured: string;
  certificate: string;
  issuedBy: string;
  /** Whether the certified volume goes to the syringe's record; null while nobody has said. */
  writesRecord: boolean | null;
}

export interface BarometerDraft {
  unit: PressureUnit;
  read: string;
  reference: string;
}

export interface CheckDraft {
  /** As a field for date and time holds it, by this computer's clock. */
  doneAt: string;
  /** Chosen by hand, where no figures say it. */
  outcome: Outcome | '';
  volume: VolumeDraft;
  linearity: readonly GasDraft[];
  syringe: SyringeDraft;
  barometer: BarometerDraft;
  /** A date, or empty. */
  validUntil: string;
  note: string;
}

/** As many as the journal takes. */
export const mostGases = 4;
export const mostPoints = 20;
const pointsAtFirst = 5;

export const emptyPoint = (): PointDraft => ({ key: crypto.randomUUID(), expected: '', read: '' });

export const emptyGas = (gas: Gas, unit: GasDraft['unit'] = '%'): GasDraft => ({
  key: crypto.randomUUID(),
  gas,
  unit,
  fullScale: '',
  points: Array.from({ length: pointsAtFirst }, emptyPoint),
});

/** The gases that the laboratory may hold its analyzer against, those of the diffusing capacity first. */
export const offeredGases: readonly Gas[] = ['CO', 'CH4', 'He', 'Ne', 'C2H2', 'O2', 'N2'];

/** `now` in ms. */
export function newCheckDraft(logbook: Logbook, analyzerId: string | null, now: number): CheckDraft {
  const { tracer } = logbook.analyzers.get(analyzerId ?? '')?.description ?? {};
  const each = { slow: '', middle: '', fast: '' };
  return {
    doneAt: localMinute(now),
    outcome: '',
    volume: { expected: usualVolume(logbook, analyzerId), readings: each, flows: each },
    linearity: ['CO' as const, ...(tracer === undefined ? [] : [tracer])].map((gas) => emptyGas(gas)),
    syringe: { measured: '', certificate: '', issuedBy: '', writesRecord: null },
    barometer: { unit: laboratoryOf(logbook).pressureUnit, read: '', reference: '' },
    validUntil: '',
    note: '',
  };
}

/** What the analyzer's usual syringe holds, as a field takes it: as certified, where a certificate says. */
function usualVolume({ analyzers, syringes }: Logbook, analyzerId: string | null): string {
  const { syringeId = '' } = analyzers.get(analyzerId ?? '')?.description ?? {};
  const syringe = syringes.get(syringeId)?.description;
  return syringe === undefined ? '' : inField(syringe.certifiedVolumeL ?? syringe.volumeL);
}

/**
 * The dilutions of an earlier check of linearity, to be read anew: gases, full scales and what is expected, never what was
 * read. Null where nothing was noted in figures.
 */
export function dilutionsOf(
  { checks }: Pick<Logbook, 'checks'>,
  analyzerId: string | null,
): { doneAt: string; zone: string; gases: readonly GasDraft[] } | null {
  let newest: { doneAt: string; zone: string; linearity: readonly Linearity[] } | null = null;
  for (const { voided, entry } of checks) {
    const { doneAt, linearity, analyzerId: about } = entry.body;
    if (voided !== null || linearity === undefined || about !== analyzerId) continue;
    if (newest === null || doneAt >= newest.doneAt) newest = { doneAt, zone: entry.zone, linearity };
  }
  if (newest === null) return null;
  const gases = newest.linearity.map(
    ({ gas, unit, fullScale, points }): GasDraft => ({
      key: crypto.randomUUID(),
      gas,
      unit,
      fullScale: inField(fullScale),
      points: points.map(({ expected }) => ({ ...emptyPoint(), expected: inField(expected) })),
    }),
  );
  return { doneAt: newest.doneAt, zone: newest.zone, gases };
}

/** The checks whose certificate may name the day up to which it holds. */
export const holdsUntil = (check: NotedCheck) => check === 'syringe-calibration' || check === 'barometer';
