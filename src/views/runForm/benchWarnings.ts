/** What stands beside a field for a person to know, and stops nobody. */
import type { Analyzer, Cylinder, Logbook, LoggedRun, Syringe } from '../../journal/logbook.ts';
import { isPressureJump } from '../../journal/plausible.ts';
import { fittingAt, outOfService } from '../../journal/standing.ts';
import { asSentence } from '../parts/asSentence.ts';
import { civilDay, dayAndTime, plain } from '../parts/figures.ts';
import { localDay } from '../parts/localTime.ts';
import type { BenchDraft, BenchField } from './benchDraft.ts';
import { readAgain, roomFields } from './origins.ts';
import { syringeProblem } from './syringeProblem.ts';

export type BenchWarnings = Partial<Record<BenchField, string>>;

interface Known {
  logbook: Logbook;
  analyzer: Analyzer | undefined;
  syringe: Syringe | undefined;
  barometricMmHg: number | undefined;
  lastRun: LoggedRun | undefined;
  /** In ms, as is `now`. */
  madeAt: number;
  now: number;
  isAmended: boolean;
}

export function warningsFor(draft: BenchDraft, known: Known): BenchWarnings {
  const warnings: BenchWarnings = {};
  const say = (field: BenchField, sentence: string | null) => {
    if (sentence !== null) warnings[field] = [warnings[field], sentence].filter(Boolean).join(' ');
  };
  // What was retired long after an old run was made is no reason to doubt its correction.
  const isDoubted = (retired: { at: string } | null) =>
    retired !== null && !(known.isAmended && known.madeAt < Date.parse(retired.at));

  const { logbook, analyzer, syringe } = known;
  if (analyzer !== undefined) {
    const { label } = analyzer.description;
    const { retired } = analyzer;
    if (retired !== null && isDoubted(retired)) {
      say('analyzerId', `${label} was retired on ${dayAndTime(retired.at)}.`);
    }
    const instant = new Date(known.madeAt).toISOString();
    const unused = outOfService(logbook, analyzer.id, instant);
    if (unused !== null) {
      say(
        'analyzerId',
        `${label} is out of service since ${dayAndTime(unused.from)}: ${asSentence(unused.reason)}`,
      );
    }
    say('analyzerId', cylinderProblem(logbook, analyzer, known.madeAt));
  }
  if (syringe !== undefined) {
    const { retired } = syringe;
    if (retired !== null && isDoubted(retired)) {
      say('syringeId', `${syringe.description.label} was retired on ${dayAndTime(retired.at)}.`);
    } else say('syringeId', syringeProblem(logbook, syringe, known.madeAt));
    say('syringeId', anotherThanUsual(draft, known));
  }
  for (const field of roomFields) say(field, readAgain(draft.origins[field], known.now));
  say('pressure', pressureProblem(draft, known));
  return warnings;
}

/** Test gas past its certificate: its concentrations are nobody's word any more. */
function cylinderProblem(logbook: Logbook, analyzer: Analyzer, madeAt: number): string | null {
  const fitting = fittingAt(logbook, analyzer.id, new Date(madeAt).toISOString());
  const cylinder: Cylinder | undefined = logbook.cylinders.get(fitting?.body.cylinderId ?? '');
  const expiresOn = cylinder?.description.expiresOn ?? null;
  if (cylinder === undefined || expiresOn === null || localDay(madeAt) <= expiresOn) return null;
  return `Its cylinder ${cylinder.description.label} has expired: its last day was ${civilDay(expiresOn)}.`;
}

/** A syringe that was carried from one analyzer to the next may be the wrong one there. */
function anotherThanUsual({ origins, syringeId }: BenchDraft, { logbook, analyzer }: Known): string | null {
  if (origins.syringeId === undefined || analyzer === undefined) return null;
  const usual = logbook.syringes.get(analyzer.description.syringeId);
  if (usual === undefined || usual.retired !== null || usual.id === syringeId) return null;
  return `${analyzer.description.label} is usually tested with ${usual.description.label}.`;
}

function pressureProblem(draft: BenchDraft, { barometricMmHg, lastRun }: Known): string | null {
  if (barometricMmHg === undefined || lastRun === undefined) return null;
  if (!isPressureJump(lastRun.body.ambient.barometricMmHg, barometricMmHg)) return null;
  const { value, unit } = lastRun.body.pressureAsTyped;
  return `Far from the last run's ${plain(value)} ${unit}. Is the unit right (${draft.pressureUnit})?`;
}
