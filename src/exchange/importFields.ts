/**
 * What an imported column can hold, what a spreadsheet may call it, and what our own export calls it. A guess from a
 * column's name is a proposal for a person, never more.
 */
import type { GasCondition } from '../core/index.ts';
import { type ImportUnit, unitOf } from './importUnits.ts';

export type ImportField =
  | 'madeAt'
  | 'time'
  | 'analyzer'
  | 'syringe'
  | 'technologist'
  | 'technologistId'
  | 'method'
  | 'route'
  | 'reason'
  | 'runId'
  | 'investigatesRun'
  | 'investigatesCheck'
  | 'temperature'
  | 'temperatureTyped'
  | 'temperatureUnit'
  | 'pressure'
  | 'pressureUnit'
  | 'humidity'
  | 'va'
  | 'vaCondition'
  | 'dlco'
  | 'dlcoUnit'
  | 'inspiredVolume'
  | 'volumeCheck'
  | 'breathHold'
  | 'conversion'
  | 'assumed'
  | 'fixedFactor'
  | 'stroke'
  | 'volumeInside'
  | 'syringeDeadSpace'
  | 'analyzerDeadSpace'
  | 'attached'
  | 'limitsEdition'
  | 'limitVa'
  | 'limitDlcoMl'
  | 'limitDlcoMmol'
  | 'limitVolumeCheck'
  | 'limitHoldTarget'
  | 'limitHoldTolerance'
  | 'limitsSource'
  | 'comment'
  | 'voided'
  | 'voidReason'
  | 'setAside'
  | 'setAsideReason';

const litres: readonly ImportUnit[] = ['L', 'mL'];

interface FieldFacts {
  /** Units that a column of it may have; none for texts and pure numbers. */
  units: readonly ImportUnit[];
  /** What the field is called in our own export. */
  own: string;
  /** The column's name, in lower case with single blanks and without its unit. */
  names?: RegExp;
}

export const importFields: Readonly<Record<ImportField, FieldFacts>> = {
  madeAt: {
    units: [],
    own: 'made_at',
    names:
      /^((test|run|qc|check|measurement|made) )?(date|datum|fecha|data|dato|day)( (and|&) time| time| of (the )?(test|run|check))?$|^(timestamp|datetime|made at|performed at|performed on|date\/time)$/,
  },
  time: {
    units: [],
    own: '',
    names:
      /^((test|run|local) )?(time|time of day|clock time|uhrzeit|heure|hora|ora|klokkeslett|tid)( of (the )?(test|run))?$/,
  },
  analyzer: {
    units: [],
    own: 'analyzer_id',
    names:
      /^(analy[sz]er|device|instrument|equipment|machine|room|system|unit|cart)( (name|id|label|no|number))?$/,
  },
  syringe: {
    units: [],
    own: 'syringe_id',
    names: /^(calibration )?(syringe|simulator)( (name|id|label|no|number))?$/,
  },
  technologist: {
    units: [],
    own: 'technologist_initials',
    names:
      /^(tech|technologist|technician|operator|initials|by|tested by|performed by|made by|user|staff)( (name|id|initials))?$/,
  },
  technologistId: { units: [], own: 'technologist_id' },
  method: { units: [], own: 'method' },
  route: { units: [], own: 'route', names: /^(route|acquisition route|test mode|mode|via)$/ },
  reason: { units: [], own: 'reason', names: /^(reason|occasion|why)$/ },
  runId: { units: [], own: 'run_id' },
  investigatesRun: { units: [], own: 'investigates_run_id' },
  investigatesCheck: { units: [], own: 'investigates_check' },
  temperature: {
    units: ['°C', '°F'],
    own: 'temperature_c',
    names:
      /^(room |ambient |air |lab(oratory)? |gas )?(temp|temperature|temperatur|température|temperatura|t amb|tamb)$/,
  },
  temperatureTyped: { units: [], own: 'temperature_as_typed' },
  temperatureUnit: { units: [], own: 'temperature_unit' },
  pressure: {
    units: ['mmHg', 'hPa', 'kPa'],
    own: 'pressure_as_typed',
    names:
      /^(pb|p bar|pbar|p baro|baro|barometer|(barometric |ambient |atmospheric |air |room )?(press|pressure|luftdruck|pression|presión|presion))$/,
  },
  pressureUnit: { units: [], own: 'pressure_unit', names: /^(pb|pressure|barometric pressure) unit$/ },
  humidity: {
    units: ['%', 'fraction'],
    own: 'relative_humidity_fraction',
    names: /^(rh|rel hum|(relative |room )?humidity)$/,
  },
  va: {
    units: litres,
    own: 'reported_va_l',
    names:
      /^(reported |measured |mean |avg |average )?(va|v a|alveolar volume|alveolar vol|va sb)( reported| measured| sb)?$/,
  },
  vaCondition: { units: [], own: 'reported_va_condition', names: /^(va|gas|reported va) condition$/ },
  dlco: {
    units: ['mL/min/mmHg', 'mmol/min/kPa'],
    own: 'reported_dlco',
    names:
      /^(reported |measured |mean |avg |average )?(dlco|tlco|dl co|tl co|dco|transfer factor|diffusing capacity|diffusion capacity|dlco sb|tlco sb)( reported| measured| sb)?$/,
  },
  dlcoUnit: { units: [], own: 'dlco_unit', names: /^(dlco|tlco) unit$/ },
  inspiredVolume: {
    units: litres,
    own: 'reported_inspired_volume_l',
    names: /^(reported )?(vi|vin|v in|ivc|inspired vol|inspired volume|inhaled volume)$/,
  },
  volumeCheck: {
    units: litres,
    own: 'reported_volume_check_l',
    names: /^(reported )?(volume check|vol check|vc|svc|vital capacity|syringe vc)$/,
  },
  breathHold: {
    units: ['s'],
    own: 'breath_hold_s',
    names: /^(bht|tbh|breath ?-?hold( time)?|hold time|apnea time)$/,
  },
  conversion: { units: [], own: 'conversion_kind' },
  assumed: { units: [], own: 'conversion_assumed_condition' },
  fixedFactor: { units: [], own: 'conversion_factor' },
  stroke: { units: litres, own: 'syringe_stroke_l' },
  volumeInside: { units: litres, own: 'plunger_start_l', names: /^(plunger start|volume inside)$/ },
  syringeDeadSpace: { units: litres, own: 'syringe_dead_space_l', names: /^syringe (dead ?space|ds|vd)$/ },
  analyzerDeadSpace: {
    units: litres,
    own: 'analyzer_dead_space_l',
    names: /^(analy[sz]er|instrument|device) (dead ?space|ds|vd)$/,
  },
  attached: { units: [], own: 'attached' },
  limitsEdition: { units: [], own: 'limits_edition' },
  limitVa: { units: [], own: 'limit_va_l' },
  limitDlcoMl: { units: [], own: 'limit_dlco_ml_min_mmhg' },
  limitDlcoMmol: { units: [], own: 'limit_dlco_mmol_min_kpa' },
  limitVolumeCheck: { units: [], own: 'limit_volume_check_fraction' },
  limitHoldTarget: { units: [], own: 'limit_breath_hold_target_s' },
  limitHoldTolerance: { units: [], own: 'limit_breath_hold_tolerance_s' },
  limitsSource: { units: [], own: 'limits_source' },
  comment: {
    units: [],
    own: 'comment',
    names: /^(comments?|notes?|remarks?|kommentar|commentaire|observaciones)$/,
  },
  voided: { units: [], own: 'voided' },
  voidReason: { units: [], own: 'void_reason' },
  setAside: { units: [], own: 'set_aside' },
  setAsideReason: { units: [], own: 'set_aside_reason' },
};

/** In the order in which a person maps them. */
const fieldNames = Object.keys(importFields) as readonly ImportField[];

/** Units in our own export are part of the names: what each of its columns is in. */
const ownUnits: Partial<Record<ImportField, ImportUnit>> = {
  temperature: '°C',
  humidity: 'fraction',
  va: 'L',
  inspiredVolume: 'L',
  volumeCheck: 'L',
  breathHold: 's',
  stroke: 'L',
  volumeInside: 'L',
  syringeDeadSpace: 'L',
  analyzerDeadSpace: 'L',
};

export interface ColumnGuess {
  field: ImportField | null;
  unit: ImportUnit | null;
  condition: GasCondition | null;
}

const conditionPattern = /\b(BTPS|ATPS|ATPD|ATP|STPD)\b/i;
const conditions: readonly GasCondition[] = ['BTPS', 'ATPS', 'ATP', 'ATPD', 'STPD'];

/** What a column may be, by its name and by what stands under it in a row of units. */
export function guessColumn(name: string, unitBelow = ''): ColumnGuess {
  const said = `${name} ${unitBelow}`.slice(0, 200);
  const [, found = ''] = conditionPattern.exec(said) ?? [];
  const condition = conditions.find((known) => known === found.toUpperCase()) ?? null;
  const { words, unit } = splitName(name.slice(0, 200));
  const field = fieldNames.find((each) => importFields[each].names?.test(words)) ?? null;
  const named = unitOf(unitBelow) ?? (unit === '' ? null : unitOf(unit));
  const isPossible = field !== null && named !== null && importFields[field].units.includes(named);
  return { field, unit: isPossible ? named : null, condition: field === 'va' ? condition : null };
}

/** `Barometric_Pressure [mmHg]` is `barometric pressure` in `mmHg`. */
function splitName(name: string): { words: string; unit: string } {
  const bracket = /^(.*?)[([{](.*?)[)\]}]?\s*$/.exec(name);
  const comma = bracket
    ? null
    : /^(.*?)(?:,| in | - )\s*(\S+(?: (?:BTPS|ATPS|ATPD|ATP|STPD))?)\s*$/i.exec(name);
  const [, head = name, unit = ''] = bracket ?? comma ?? [];
  const words = tidyWords(head);
  if (unit !== '') return { words: words.replace(conditionPattern, '').trim(), unit };
  // `VA L` or `temp_c`: the last word may be a unit.
  const last = /^(.+) (\S+)$/.exec(words);
  if (last?.[1] !== undefined && last[2] !== undefined && unitOf(last[2]) !== null) {
    return { words: last[1].replace(conditionPattern, '').trim(), unit: last[2] };
  }
  return { words: words.replace(conditionPattern, '').trim(), unit: '' };
}

const tidyWords = (text: string) =>
  text
    .normalize('NFKC')
    .replace(/[\u200B-\u200F\u202A-\u202E\u2066-\u2069\uFEFF]/g, '')
    .replace(/[_.:#]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

/** The columns of our own export by field, where the header is one; null where it is another program's. */
export function ownColumns(header: readonly string[]): ReadonlyMap<ImportField, number> | null {
  const names = header.map((name) => name.trim());
  const needed = ['run_id', 'made_at', 'analyzer_id', 'reported_va_l', 'reported_dlco', 'pressure_as_typed'];
  if (!needed.every((name) => names.includes(name))) return null;
  const found = new Map<ImportField, number>();
  for (const field of fieldNames) {
    const index = names.indexOf(importFields[field].own);
    if (importFields[field].own !== '' && index >= 0) found.set(field, index);
  }
  return found;
}

export const ownUnitOf = (field: ImportField): ImportUnit | null => ownUnits[field] ?? null;
