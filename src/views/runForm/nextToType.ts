/** Where Enter leads from a field of a run: to what is still to be typed, in the order of the form. Pure. */
import type { LoggedRun } from '../../journal/logbook.ts';
import type { BenchDraft, BenchField, NumberFieldName } from './benchDraft.ts';
import { draftOfRun } from './draftMoves.ts';
import type { BenchReading } from './readBenchDraft.ts';

const order = [
  'analyzerId',
  'syringeId',
  'technologistId',
  'madeAt',
  'temperature',
  'pressure',
  'humidity',
  'va',
  'dlco',
  'inspiredVolume',
  'breathHold',
  'volumeCheck',
] as const satisfies readonly BenchField[];
type Stop = (typeof order)[number];

const mayStayEmpty = [
  'humidity',
  'inspiredVolume',
  'breathHold',
  'volumeCheck',
] as const satisfies readonly NumberFieldName[];

/**
 * The next field to type; null where the run can be recorded. What a run needs is looked for in the whole form, from
 * `from` on and round its end. A field that may stay empty is stopped at on the way where the analyzer's last run had
 * it: whoever types it every week must not record without it, and Enter passes it by where it is not to be had.
 */
export function nextToType(
  from: BenchField | null,
  draft: BenchDraft,
  { missing, errors }: Pick<BenchReading, 'missing' | 'errors'>,
  lastRun: LoggedRun | undefined,
): Stop | null {
  const isNeeded = (field: Stop) => missing.includes(field) || errors[field] !== undefined;
  const usual = lastRun && draftOfRun(lastRun);
  const isUsual = (field: Stop) =>
    mayStayEmpty.some((one) => one === field) &&
    draft[field] === '' &&
    usual !== undefined &&
    usual[field] !== '';
  const stops: readonly BenchField[] = order;
  const start = from === null ? 0 : stops.indexOf(from) + 1;
  const ahead = order.slice(start).find((field) => isNeeded(field) || isUsual(field));
  return ahead ?? order.slice(0, start).find(isNeeded) ?? null;
}
