/** From one row of a file to a run, or to every reason why it is none. */

import { ambientFactor, pressureInMmHg, reduceRun } from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { AnalyzerDescription, RunContent } from '../journal/entries.ts';
import { adoptedLimitsAt } from '../journal/standing.ts';
import { CellReader, type Or, type ReadMeasured, unread } from './importCells.ts';
import { instantsIn, noon, readDate, readTime } from './importDates.ts';
import type { KnownLogbook } from './importKnown.ts';
import { nameReader } from './importNames.ts';
import {
  isTrue,
  readAttached,
  readComment,
  readInvestigates,
  readSetAside,
  readTechnologist,
  readTemperatureTyped,
} from './importOwn.ts';
import type { ImportPlan } from './importPlan.ts';
import { readConversion, readLimits, readSyringe, typedMillilitres } from './importSetUp.ts';
import type { ImportRow } from './importTable.ts';

/** A run, or the reasons that keep a row out. `doubts` are to be read and stop nothing. */
export interface UnderstoodRow {
  run: RunContent | null;
  simulatedVaL: number | null;
  /** The id that our own export gives it; empty in another program's file. */
  fileRunId: string;
  /** Why our own export says that it was set aside; null where it does not. */
  setAside: string | null;
  doubts: readonly string[];
  refusals: readonly string[];
}

const conditions = ['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD'] as const;
const routes = ['patient-test', 'built-in'] as const;
const methods = ['syringe', 'precision-gas'] as const;
const reasons = ['weekly', 'suspected-fault', 'after-service', 'repeat'] as const;
const pressureUnits = ['mmHg', 'kPa', 'hPa'] as const;
const dlcoUnits = ['mL/min/mmHg', 'mmol/min/kPa'] as const;

/** Prepared once for a whole file: rows come by the hundred thousand. */
export function rowReader(
  plan: ImportPlan,
  known: KnownLogbook,
  readMeasured: ReadMeasured,
): (row: ImportRow) => UnderstoodRow {
  const readName = nameReader(plan, known);
  const toInstant = instantsIn(known.zone);
  const analyzers = new Map(known.analyzers.map(({ id, description }) => [id, description]));
  const syringes = new Map(known.syringes.map(({ id, description }) => [id, description]));
  const editions = [known.limits, ...known.limitEditions.map(({ body }) => body.limits)];
  return (row) => {
    const cells = new CellReader(row, plan, readName, readMeasured);
    if (row.broken !== null) cells.refuse(row.broken);
    const read = row.broken === null ? readRun() : null;
    const { doubts, refusals } = cells;
    const { run, simulatedVaL } = (refusals.length === 0 && read) || { run: null, simulatedVaL: null };
    const fileRunId = row.broken === null ? cells.text('runId') : '';
    const setAside = run === null ? null : readSetAside(cells);
    return { run, simulatedVaL, fileRunId, setAside, doubts, refusals };

    function readRun() {
      const analyzerId = cells.name('analyzer', plan.constants.analyzer);
      const analyzer = analyzerId === unread ? undefined : analyzers.get(analyzerId);
      // Without an analyzer the row is refused already: the syringe need not be missed as well.
      const syringeId = cells.name('syringe', plan.constants.syringe || analyzer?.syringeId || 'unknown');
      const syringe = syringeId === unread ? undefined : syringes.get(syringeId);
      const common = readCommon(cells, { plan, known, toInstant, analyzer });
      if (analyzerId === unread || syringeId === unread) return null;
      if (!analyzer) cells.refuse('The analyzer is not in this logbook.');
      else if (!syringe) cells.refuse('The syringe is not in this logbook.');
      if (!analyzer || !syringe) return null;
      if (common === unread) return null;
      const attached = readAttached(cells);
      const investigates = readInvestigates(cells);
      const conversion = readConversion(cells, plan.constants, analyzer, common.reading.vaReportedAs);
      const setUp = readSyringe(cells, plan.constants, analyzer, syringe, attached);
      const dead = cells.described('analyzerDeadSpace');
      const limits = readLimits(cells, adoptedLimitsAt(known, common.madeAt) ?? known.limits, editions);
      if (conversion === unread || setUp === unread || dead === unread || limits === unread) return null;
      const typedDead = typedMillilitres(cells, plan.constants.analyzerDeadSpace, 'analyzer’s dead space');
      if (typedDead === unread) return null;
      const run: RunContent = {
        ...common,
        analyzerId,
        syringeId,
        conversion,
        syringe: setUp,
        analyzerDeadSpaceL: dead ?? typedDead ?? analyzer.analyzerDeadSpaceL,
        limits,
        ...(attached === undefined ? {} : { attached }),
        ...(investigates === undefined ? {} : { investigates }),
      };
      const simulatedVaL = simulate(cells, run);
      return simulatedVaL === unread ? null : { run, simulatedVaL };
    }
  };
}

/** All of a run but what rests on the equipment's description. Every field is read, whatever came before. */
function readCommon(
  cells: CellReader,
  {
    plan,
    known,
    toInstant,
    analyzer,
  }: {
    plan: ImportPlan;
    known: KnownLogbook;
    toInstant: ReturnType<typeof instantsIn>;
    analyzer: AnalyzerDescription | undefined;
  },
) {
  const { constants, units } = plan;
  if (isTrue(cells.text('voided'))) {
    cells.refuse(
      `Struck out where it comes from: ${cells.text('voidReason').slice(0, 200) || 'no reason given'}`,
    );
  }
  const unitOfPressure = pressureUnits.find((unit) => unit === units.get('pressure')) ?? null;
  const unitOfDlco = dlcoUnits.find((unit) => unit === units.get('dlco')) ?? null;
  const madeAt = readMadeAt(cells, plan, toInstant);
  const technologistId = readTechnologist(cells, constants.technologist, known);
  const method = cells.word('method', methods, '', 'syringe');
  const route = cells.word('route', routes, constants.route, analyzer?.route ?? 'patient-test');
  const reason = cells.word('reason', reasons, constants.reason, 'weekly');
  const vaReportedAs = cells.word(
    'vaCondition',
    conditions,
    constants.vaCondition,
    analyzer?.vaReportedAs ?? 'BTPS',
  );
  const pressureUnit = cells.word('pressureUnit', pressureUnits, '', unitOfPressure);
  const dlcoUnit = cells.word('dlcoUnit', dlcoUnits, '', unitOfDlco);
  const temperatureC = cells.measured('temperature', units.get('temperature') ?? null);
  const pressure = cells.measured('pressure', pressureUnit);
  const humidity = cells.optional('humidity', units.get('humidity') ?? null);
  const vaL = cells.measured('va', units.get('va') ?? null);
  const dlco = cells.measured('dlco', dlcoUnit);
  const inspiredVolumeL = cells.optional('inspiredVolume', units.get('inspiredVolume') ?? null);
  const volumeCheckL = cells.optional('volumeCheck', units.get('volumeCheck') ?? null);
  const breathHoldS = cells.optional('breathHold', units.get('breathHold') ?? null);
  const comment = readComment(cells, plan.isOwnExport);
  if (vaReportedAs === 'ATP' && humidity === undefined)
    cells.refuse('A VA in ATP needs the room’s humidity.');
  if (
    madeAt === unread ||
    technologistId === unread ||
    method === unread ||
    route === unread ||
    reason === unread ||
    vaReportedAs === unread ||
    pressureUnit === unread ||
    dlcoUnit === unread ||
    temperatureC === unread ||
    pressure === unread ||
    humidity === unread ||
    vaL === unread ||
    dlco === unread ||
    inspiredVolumeL === unread ||
    volumeCheckL === unread ||
    breathHoldS === unread ||
    comment === unread
  ) {
    return unread;
  }
  const temperatureAsTyped = readTemperatureTyped(cells, temperatureC);
  return {
    madeAt,
    technologistId,
    method,
    route,
    reason,
    ambient: {
      temperatureC,
      barometricMmHg: pressureInMmHg(pressure, pressureUnit),
      // Percent were made of it; twelve digits undo that.
      ...(humidity === undefined ? {} : { relativeHumidity: withoutBinaryNoise(humidity / 100) }),
    },
    pressureAsTyped: { value: pressure, unit: pressureUnit },
    reading: {
      vaL,
      vaReportedAs,
      dlco,
      dlcoUnit,
      ...(inspiredVolumeL === undefined ? {} : { inspiredVolumeL }),
      ...(volumeCheckL === undefined ? {} : { volumeCheckL }),
      ...(breathHoldS === undefined ? {} : { breathHoldS }),
    },
    comment,
    ...(temperatureAsTyped === undefined ? {} : { temperatureAsTyped }),
  };
}

function readMadeAt(
  cells: CellReader,
  plan: ImportPlan,
  toInstant: ReturnType<typeof instantsIn>,
): Or<string> {
  const text = cells.text('madeAt');
  if (text === '') return cells.refuse('The date is missing.');
  const date = readDate(text, plan.dateOrder);
  if (date.state === 'wrong') return cells.refuse(date.message);
  const typed = cells.text('time');
  const time = typed === '' ? null : readTime(typed);
  if (typed !== '' && time === null) return cells.refuse(`“${typed.slice(0, 40)}” is not a time of day.`);
  const { ms, exists } = toInstant(date.parts, time ?? date.parts.time ?? noon);
  if (!exists)
    cells.doubts.push('The clocks were put forward over this time of day: an hour later is taken.');
  return new Date(ms).toISOString();
}

/** The numbers of a run, so that none is let in that the logbook could not compute with. */
function simulate(cells: CellReader, run: RunContent): Or<number> {
  const { temperatureC, barometricMmHg, relativeHumidity } = run.ambient;
  const room = { temperatureC, barometricMmHg };
  const ambient = relativeHumidity === undefined ? room : { ...room, relativeHumidity };
  const { inspiredVolumeL, vaReportedAs } = run.reading;
  const { strokeL } = run.syringe;
  if (!(strokeL > 0)) return cells.refuse('The syringe holds no more than the volume left inside.');
  try {
    const factor = ambientFactor(vaReportedAs, ambient, run.conversion);
    const inspired = inspiredVolumeL === undefined ? strokeL : inspiredVolumeL * factor;
    if (inspired <= run.analyzerDeadSpaceL) {
      return cells.refuse('The inspired volume is not more than the dead space that the analyzer subtracts.');
    }
    return reduceRun({ ...run, ambient }).simulatedVaL;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return cells.refuse(`Its numbers cannot be: ${error.message}`);
  }
}
