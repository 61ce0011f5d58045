/** What a report is read from, and what of it lies in its period. Pure. */
import { type Assessments, addDays, type CivilDate } from '../../core/index.ts';
import type { Entry } from '../../journal/entries.ts';
import type { Analyzer, Logbook, LoggedControl, LoggedRun } from '../../journal/logbook.ts';
import type { SignatureCheck } from '../../journal/signature.ts';
import type { ControlAssessments, ControlFailure } from '../controlAssessments.ts';
import type { Failure } from '../failures.ts';
import { dayIn } from '../investigationShift.ts';
import type { JournalFound } from './journalFound.ts';
import type { ReportChoice } from './reportChoice.ts';

export interface ReportSources {
  logbook: Logbook;
  assessments: Assessments;
  failures: readonly Failure[];
  controlAssessments: ControlAssessments;
  controlFailures: readonly ControlFailure[];
  /** The last entry of every chain, by workstation. */
  heads: ReadonlyMap<string, { seq: number; hash: string }>;
  journal: JournalFound;
  /** Null while they are being verified. */
  signatures: readonly SignatureCheck[] | null;
  /** When it is made, in ms, and by whom; null where nobody was named. */
  now: number;
  madeBy: { initials: string; name: string } | null;
  /** IANA name of this workstation's zone. */
  zone: string;
  demonstration: boolean;
}

/** Both ends in. */
export interface Period {
  from: CivilDate;
  to: CivilDate;
}

/** Whether an instant lies in the period by the clocks of its entry. No zone is a day from UTC: few clocks are asked. */
export function isIn({ from, to }: Period): (instant: string, zone: string) => boolean {
  const [before, after] = [addDays(from, -1), addDays(to, 1)];
  return (instant, zone) => {
    const utcDay = instant.slice(0, 10);
    if (utcDay < before || utcDay > after) return false;
    if (utcDay > from && utcDay < to) return true;
    const day = dayIn(Date.parse(instant), zone);
    return day >= from && day <= to;
  };
}

/** Voided ones among them. */
export function runsIn({ runs }: Pick<Logbook, 'runs'>, analyzerId: string, period: Period): LoggedRun[] {
  const inPeriod = isIn(period);
  return runs.filter(
    ({ body, entry }) => body.analyzerId === analyzerId && inPeriod(body.madeAt, entry.zone),
  );
}

/** Voided ones among them. */
export function controlsIn(
  { controls }: Pick<Logbook, 'controls'>,
  analyzerId: string,
  period: Period,
): LoggedControl[] {
  const inPeriod = isIn(period);
  return controls.filter(
    ({ control, entry }) => control.analyzerId === analyzerId && inPeriod(control.madeAt, entry.zone),
  );
}

/** From the first moment of the period to its last, in ms, by this computer's clock, as the charts' own axis has it. */
export const spanOf = ({ from, to }: Period) => ({
  from: new Date(`${from}T00:00`).getTime(),
  to: new Date(`${to}T23:59:59.999`).getTime(),
});

/** The period's last moment, an ISO 8601 instant in UTC, for what holds "from then on". */
export const endOf = (period: Period): string => new Date(spanOf(period).to).toISOString();

/** The analyzers that a report is about: those chosen, or all that were in use or run in its period. */
export function analyzersOf(
  { from, to, analyzerIds }: Pick<ReportChoice, 'from' | 'to' | 'analyzerIds'>,
  logbook: Logbook,
): readonly Analyzer[] {
  const all = [...logbook.analyzers.values()];
  if (analyzerIds !== null) return all.filter(({ id }) => analyzerIds.includes(id));
  const inPeriod = isIn({ from, to });
  const run = new Set(
    logbook.runs
      .filter(({ body, entry }) => inPeriod(body.madeAt, entry.zone))
      .map(({ body }) => body.analyzerId),
  );
  return all.filter(
    ({ id, retired, history }) =>
      run.has(id) || ((retired === null || dayOf(retired) >= from) && isAdded(history, to)),
  );
}

const dayOf = ({ at }: { at: string }) => at.slice(0, 10);
const isAdded = ([added]: readonly Entry[], to: CivilDate) => added === undefined || dayOf(added) <= to;
