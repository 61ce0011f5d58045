/** What the import's screen says of fields, of what a proposal rests on, and of how rows came out. */
import type { DateCounts, DateOrder } from '../../exchange/importDates.ts';
import type { ImportField } from '../../exchange/importFields.ts';
import type { ImportOutline } from '../../exchange/importOutline.ts';
import type { DecimalEvidence, DecimalMark, MissingChoice, UnitSource } from '../../exchange/importPlan.ts';
import type { RowState } from '../../exchange/importRuns.ts';
import type { Delimiter, DelimiterCount } from '../../exchange/importTable.ts';
import { counted, plain } from '../parts/figures.ts';

export const fieldWords: Record<ImportField, string> = {
  madeAt: 'Date of the run',
  time: 'Time of day',
  analyzer: 'Analyzer',
  syringe: 'Syringe',
  technologist: 'Made by',
  technologistId: 'Id of who made it',
  method: 'Method',
  route: 'Route',
  reason: 'Reason',
  runId: 'Id of the run',
  investigatesRun: 'Run that it looks into',
  investigatesCheck: 'Check that it was made as',
  temperature: 'Temperature',
  temperatureTyped: 'Temperature as typed',
  temperatureUnit: 'Unit of the temperature as typed',
  pressure: 'Barometric pressure',
  pressureUnit: 'Unit of the pressure',
  humidity: 'Relative humidity',
  va: 'VA as reported',
  vaCondition: 'Gas condition of VA',
  dlco: 'DLCO as reported',
  dlcoUnit: 'Unit of DLCO',
  inspiredVolume: 'Inspired volume',
  volumeCheck: 'Volume check',
  breathHold: 'Breath-hold time',
  conversion: 'Conversion',
  assumed: 'Gas that the conversion assumes',
  fixedFactor: 'Fixed factor',
  stroke: 'Stroke of the syringe',
  volumeInside: 'Plunger starts at',
  syringeDeadSpace: 'Dead space of the syringe',
  analyzerDeadSpace: 'Dead space the analyzer subtracts',
  attached: 'Left on the syringe',
  limitsEdition: 'Edition of the published limits',
  limitVa: 'Published limit of VA',
  limitDlcoMl: 'Published limit of DLCO',
  limitDlcoMmol: 'Published limit of DLCO',
  limitVolumeCheck: 'Limit of the volume check',
  limitHoldTarget: 'Breath-hold time aimed at',
  limitHoldTolerance: 'Tolerance of the breath-hold time',
  limitsSource: 'Source of the published limits',
  comment: 'Comment',
  voided: 'Struck out',
  voidReason: 'Why it was struck out',
  setAside: 'Set aside',
  setAsideReason: 'Why it was set aside',
};

/** What a run cannot be without, in the order in which a person looks for it. */
export const mainFields: readonly ImportField[] = [
  'madeAt',
  'time',
  'analyzer',
  'technologist',
  'va',
  'dlco',
  'temperature',
  'pressure',
];
export const moreFields: readonly ImportField[] = [
  'syringe',
  'route',
  'reason',
  'vaCondition',
  'humidity',
  'inspiredVolume',
  'volumeCheck',
  'breathHold',
  'comment',
];

export const delimiterWords: Record<Delimiter, string> = {
  ',': 'a comma',
  ';': 'a semicolon',
  '\t': 'a tab',
};

export function delimiterEvidence(counts: readonly DelimiterCount[], chosen: Delimiter): string {
  const count = counts.find(({ delimiter }) => delimiter === chosen);
  if (!count || count.agreeing === 0) return 'It parts none of the first rows.';
  return `It parts ${count.agreeing} of the first ${counted(count.rows, 'row')} into ${count.columns} cells.`;
}

export const dateOrderWords: Record<DateOrder, string> = {
  DMY: 'day, month, year',
  MDY: 'month, day, year',
  YMD: 'year, month, day',
};

/** What the dates themselves say, counted; never more than they say. */
export function dateOrderEvidence(counts: DateCounts | null): string {
  if (counts === null) return 'Choose the column of the dates first.';
  const { clear, dayFirst, monthFirst, either } = counts;
  const open = either === 0 ? '' : ` ${counted(either, 'date')} could be either.`;
  if (dayFirst > 0 && monthFirst > 0) {
    return `${counted(dayFirst, 'date')} can only have the day first and ${monthFirst} only the month: choose one, the others will be refused.`;
  }
  if (dayFirst > 0)
    return `${counted(dayFirst, 'date')} can only have the day first, none only the month.${open}`;
  if (monthFirst > 0)
    return `${counted(monthFirst, 'date')} can only have the month first, none only the day.${open}`;
  if (either > 0) {
    return `No day above 12 tells day from month in ${counted(either, 'date')}: you have to say which it is.`;
  }
  return clear > 0
    ? `All ${counted(clear, 'date')} can be read in one way only.`
    : 'No cell of this column looks like a date.';
}

export const decimalMarkWords: Record<DecimalMark, string> = { '.': 'a point: 3.36', ',': 'a comma: 3,36' };

export function decimalMarkEvidence({ pointed, comma, whole }: DecimalEvidence): string {
  if (pointed > 0 && comma > 0) {
    return `${counted(pointed, 'number')} with a point and ${comma} with a comma: choose one, the others will be refused.`;
  }
  if (pointed > 0) return `${counted(pointed, 'number')} with a point, none with a comma.`;
  if (comma > 0) return `${counted(comma, 'number')} with a comma, none with a point.`;
  return whole > 0 ? 'Every number is whole: nothing tells.' : 'The columns chosen hold no numbers.';
}

export function unitEvidence(
  source: UnitSource | undefined,
  middle: number | null,
  rivals: readonly string[] = [],
): string {
  const others = rivals.length > 0 ? ` ${rivals.map((name) => `“${name}”`).join(', ')} could be it too.` : '';
  switch (source) {
    case 'name':
      return `The unit is in the column’s name.${others}`;
    case 'values':
      return `The unit is guessed from its numbers: ${plain(middle ?? 0)} in the middle.${others}`;
    default:
      return others.trim();
  }
}

export function missingWords(missing: MissingChoice): string {
  switch (missing.of) {
    case 'dateOrder':
      return 'the order of day and month';
    case 'decimalMark':
      return 'the decimal mark';
    case 'unit':
      return `the unit of ${lower(fieldWords[missing.field])}`;
    case 'field':
      return lower(fieldWords[missing.field]);
  }
}

const lower = (words: string) =>
  /^[A-Z]{2}/.test(words) ? words : words.replace(/^./, (first) => first.toLowerCase());

export const stateWords: Record<RowState, string> = {
  accepted: 'Accepted',
  warning: 'With a warning',
  refused: 'Refused',
  there: 'Already there',
};

export function outlineSentence({ rowCount, header, headerRow }: ImportOutline): string {
  const above = headerRow > 1 ? ` Row ${headerRow} names the columns; what stands above is left out.` : '';
  return `${counted(rowCount, 'row')} below ${counted(header.length, 'named column')}.${above}`;
}
