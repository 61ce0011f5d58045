/** What was done to keep a syringe's volume known: its certificates, its leak checks and its falls. Pure. */
import { syringeVolumeCheck } from '../../core/index.ts';
import type { EntryOf } from '../../journal/entries.ts';
import type { Logbook, LoggedCheck } from '../../journal/logbook.ts';
import { civilDay, day, litresAsTyped, signedMillilitres, signedPercent } from '../parts/figures.ts';

export interface CertificateRow {
  check: LoggedCheck;
  day: string;
  /** Words, each empty where no figures were noted. */
  volume: string;
  offNominal: string;
  /** Against the certificate before it. */
  sinceBefore: string;
  papers: string;
  holdsUntil: string;
}

export interface Fall {
  drop: EntryOf<'syringe-dropped'>;
  /** The first leak and stop check after it; null while there is none. */
  checked: LoggedCheck | null;
}

export interface SyringeCare {
  /** Each newest first, voided ones among them. */
  certificates: readonly CertificateRow[];
  leakChecks: readonly LoggedCheck[];
  falls: readonly Fall[];
}

export function buildSyringeCare(
  { checks, drops }: Pick<Logbook, 'checks' | 'drops'>,
  syringeId: string,
): SyringeCare {
  const ofSyringe = checks
    .filter(({ entry: { body } }) => body.syringeId === syringeId)
    .sort((one, other) => madeAt(one) - madeAt(other));
  const leakChecks = ofSyringe.filter(({ entry: { body } }) => body.check === 'syringe-leak');
  const falls = drops
    .filter(({ body }) => body.syringeId === syringeId)
    .map((drop): Fall => ({ drop, checked: firstAfter(leakChecks, Date.parse(drop.body.droppedAt)) }))
    .sort((one, other) => Date.parse(other.drop.body.droppedAt) - Date.parse(one.drop.body.droppedAt));
  return {
    certificates: certificateRows(ofSyringe).reverse(),
    leakChecks: leakChecks.toReversed(),
    falls,
  };
}

const madeAt = ({ entry }: LoggedCheck) => Date.parse(entry.body.doneAt);

/** As the schedule reckons: whatever came of it, it was made after the fall. */
const firstAfter = (leakChecks: readonly LoggedCheck[], droppedAt: number): LoggedCheck | null =>
  leakChecks.find((check) => check.voided === null && madeAt(check) > droppedAt) ?? null;

/** Oldest first. */
function certificateRows(ofSyringe: readonly LoggedCheck[]): CertificateRow[] {
  let beforeL: number | null = null;
  return ofSyringe
    .filter(({ entry: { body } }) => body.check === 'syringe-calibration')
    .map((check): CertificateRow => {
      const { syringe, doneAt, validUntil } = check.entry.body;
      const row = {
        check,
        day: day(doneAt, check.entry.zone),
        holdsUntil: validUntil === null ? '' : civilDay(validUntil),
      };
      if (syringe === undefined) {
        return { ...row, volume: '', offNominal: '', sinceBefore: '', papers: '' };
      }
      const { measuredL, certificate, issuedBy } = syringe;
      const { deviation, deviationFraction } = syringeVolumeCheck(syringe);
      const sinceBefore = beforeL === null ? '' : `${signedMillilitres((measuredL - beforeL) * 1000)} mL`;
      if (check.voided === null) beforeL = measuredL;
      return {
        ...row,
        volume: `${litresAsTyped(measuredL)} L`,
        offNominal: `${signedMillilitres(deviation * 1000)} mL, ${signedPercent(deviationFraction, 2)} %`,
        sinceBefore,
        papers: [certificate, issuedBy].filter((part) => part !== '').join(', '),
      };
    });
}
