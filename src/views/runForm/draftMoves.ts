/** From one form to the next: another analyzer, the run after this one, a run put right. Pure. */
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { Attachment, RunBody, TemperatureUnit } from '../../journal/entries.ts';
import type { Analyzer, LoggedRun } from '../../journal/logbook.ts';
import { inField } from '../parts/figures.ts';
import { type BenchDraft, emptyDraft } from './benchDraft.ts';
import { carriedFrom } from './origins.ts';

type Remembering = Pick<Analyzer, 'id' | 'description' | 'history'>;

/** An analyzer's last run, as far as its description was not changed since. */
function stillValid(analyzer: Remembering, lastRun: LoggedRun | undefined): RunBody | undefined {
  const describedAt = analyzer.history.at(-1)?.at ?? '';
  return lastRun && lastRun.entry.at >= describedAt ? lastRun.body : undefined;
}

/** The syringe that an analyzer is tested with, and what is left on it. */
export function ownSyringe(
  analyzer: Remembering,
  lastRun: LoggedRun | undefined,
): Pick<BenchDraft, 'syringeId' | 'attached'> {
  const last = stillValid(analyzer, lastRun);
  return { syringeId: last?.syringeId ?? analyzer.description.syringeId, attached: rowsOf(last?.attached) };
}

/**
 * What an analyzer remembers: its last run's syringe, route and units, or its description's where there is no run yet or
 * the description was changed since. What was carried over from this session's last run stays, and a number that stands
 * in the form keeps the unit it was read in.
 */
export function draftForAnalyzer(
  draft: BenchDraft,
  analyzer: Remembering,
  lastRun: LoggedRun | undefined,
  temperatureUnit: TemperatureUnit = draft.temperatureUnit,
): BenchDraft {
  const { description } = analyzer;
  const last = stillValid(analyzer, lastRun);
  return {
    ...draft,
    analyzerId: analyzer.id,
    ...(draft.origins.syringeId === undefined ? ownSyringe(analyzer, lastRun) : {}),
    route: last?.route ?? description.route,
    ...(draft.temperature === '' ? { temperatureUnit } : {}),
    ...(draft.pressure === ''
      ? { pressureUnit: last?.pressureAsTyped.unit ?? description.pressureUnit }
      : {}),
    vaReportedAs: last?.reading.vaReportedAs ?? description.vaReportedAs,
    dlcoUnit: last?.reading.dlcoUnit ?? description.dlcoUnit,
  };
}

/**
 * After a run is recorded: the readings are typed anew. Who, with what and in which room is carried over and says so.
 * `at`: the moment of the recorded run, in ms; a room of another day is not carried, and whoever catches up with paper
 * stays in hand.
 */
export function draftAfterRecording(recorded: BenchDraft, at: number, now: number): BenchDraft {
  const { analyzerId, route, temperatureUnit, pressureUnit, vaReportedAs, dlcoUnit } = recorded;
  const next = { ...emptyDraft, analyzerId, route, temperatureUnit, pressureUnit, vaReportedAs, dlcoUnit };
  return carriedFrom(recorded, next, { at, now });
}

/** The form as it is filled in to amend a run: each value and unit as it was typed. */
export function draftOfRun({ body }: Pick<LoggedRun, 'body'>): BenchDraft {
  const { ambient, pressureAsTyped, temperatureAsTyped, reading } = body;
  const { relativeHumidity } = ambient;
  return {
    analyzerId: body.analyzerId,
    technologistId: body.technologistId,
    syringeId: body.syringeId,
    attached: rowsOf(body.attached),
    route: body.route,
    reason: body.reason,
    investigates: body.investigates ?? null,
    madeAt: '',
    temperature: inField(temperatureAsTyped?.value ?? ambient.temperatureC),
    temperatureUnit: temperatureAsTyped?.unit ?? '°C',
    pressure: inField(pressureAsTyped.value),
    pressureUnit: pressureAsTyped.unit,
    // 0.29 · 100 is 28.999999999999996.
    humidity: relativeHumidity === undefined ? '' : inField(withoutBinaryNoise(relativeHumidity * 100)),
    va: inField(reading.vaL),
    vaReportedAs: reading.vaReportedAs,
    dlco: inField(reading.dlco),
    dlcoUnit: reading.dlcoUnit,
    inspiredVolume: ifKnown(reading.inspiredVolumeL),
    volumeCheck: ifKnown(reading.volumeCheckL),
    breathHold: ifKnown(reading.breathHoldS),
    comment: body.comment,
    origins: {},
  };
}

const ifKnown = (value: number | undefined) => (value === undefined ? '' : inField(value));

export const rowsOf = (attached: readonly Attachment[] = []): BenchDraft['attached'] =>
  attached.map(({ name, volumeL }) => ({ name, volume: inField(withoutBinaryNoise(volumeL * 1000)) }));

/**
 * The form of an amended run once another analyzer is chosen. The numbers were read off an instrument and stay; what an
 * analyzer reports them in is its own. The pressure is the barometer's, and its unit stays.
 */
export function draftOnAnalyzer(
  draft: BenchDraft,
  analyzerId: string,
  { vaReportedAs, dlcoUnit }: Pick<BenchDraft, 'vaReportedAs' | 'dlcoUnit'>,
): BenchDraft {
  return { ...draft, analyzerId, vaReportedAs, dlcoUnit };
}
