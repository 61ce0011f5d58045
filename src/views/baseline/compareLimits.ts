/** A frozen baseline against rolling limits: what each would have said of the last runs, with the drift guard. Pure. */
import {
  driftLimitSd,
  evaluateSeries,
  type PointEvaluation,
  rollingDrift,
  type SeriesPoint,
} from '../../core/index.ts';
import { seriesClosures } from '../../journal/fold.ts';
import type { Logbook, LoggedRun } from '../../journal/logbook.ts';
import { counted, marked, plain, zInTable } from '../parts/figures.ts';
import type { Desk } from './baselineRuns.ts';

export interface LimitsRow {
  run: LoggedRun;
  value: number;
  baseline: LimitsSay;
  rolling: LimitsSay;
}

export interface LimitsSay {
  /** `–` where there were no own limits. */
  z: string;
  /** The rules that fired; empty where none did. */
  rules: string;
}

export interface LimitsComparison {
  /** Newest first. */
  rows: readonly LimitsRow[];
  summary: string;
  drift: string;
  hasWalked: boolean;
}

const shown = 8;

/** Of the epoch in force, by today's policy but for its kind of limits. Null while it has no run. */
export function compareLimits(
  { series, policy, inForce }: Desk,
  logbook: Pick<Logbook, 'closures'>,
): LimitsComparison | null {
  const { runs } = inForce;
  if (runs.length === 0) return null;
  const points = runs.map(
    ({ run, value, isBreached }): SeriesPoint => ({
      id: run.id,
      at: run.simulation.at,
      value,
      epoch: run.simulation.epoch,
      excluded: run.simulation.excluded,
      breached: isBreached,
    }),
  );
  const closures = seriesClosures(logbook)
    .filter(
      (one) =>
        one.analyzerId === series.analyzerId &&
        one.method === series.method &&
        one.route === series.route &&
        one.quantity === series.quantity,
    )
    .map(({ at }) => at);
  const frozen = evaluateSeries(points, { ...policy, limits: 'baseline' }, closures);
  const rolling = evaluateSeries(points, { ...policy, limits: 'rolling' }, closures);
  const rows = runs
    .map(({ run, value }, index) => ({
      run,
      value,
      baseline: sayOf(frozen[index]),
      rolling: sayOf(rolling[index]),
    }))
    .slice(-shown)
    .toReversed();
  const walk = rollingDrift(points, rolling, policy.baselineSize).findLast(({ walkSd }) => walkSd !== null);
  return {
    rows,
    summary: summaryOf(rows),
    drift: driftWords(walk?.walkSd ?? null),
    hasWalked: walk?.warns ?? false,
  };
}

function sayOf(evaluation: PointEvaluation | undefined): LimitsSay {
  const z = evaluation?.z ?? null;
  return {
    z: z === null ? '–' : zInTable(z),
    rules: evaluation?.signals.map(({ rule }) => rule).join(', ') ?? '',
  };
}

function summaryOf(rows: readonly LimitsRow[]): string {
  const byBaseline = rows.filter(({ baseline }) => baseline.rules !== '').length;
  const byRolling = rows.filter(({ rolling }) => rolling.rules !== '').length;
  const last = `Of the last ${counted(rows.length, 'run')}`;
  if (byBaseline === 0 && byRolling === 0) return `${last}, neither would have marked any.`;
  return byBaseline === byRolling
    ? `${last}, either would have marked ${byBaseline}.`
    : `${last}, a frozen baseline would have marked ${byBaseline} and rolling limits ${byRolling}.`;
}

function driftWords(walkSd: number | null): string {
  if (walkSd === null) {
    return 'How far a rolling mean has walked is known once the first baseline of this epoch is full.';
  }
  const far = marked(Math.abs(walkSd).toFixed(1));
  const limit = plain(driftLimitSd);
  return Math.abs(walkSd) > driftLimitSd
    ? `A rolling mean would have walked ${far} SD ${walkSd > 0 ? 'up' : 'down'} from the first baseline, beyond ${limit} SD: it follows a drift that a frozen baseline shows.`
    : `A rolling mean would have walked ${far} SD from the first baseline, inside ${limit} SD.`;
}
