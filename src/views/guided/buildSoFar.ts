/** What is filled in so far, in the order of the steps: only what is there. */
import type { Logbook } from '../../journal/logbook.ts';
import { millilitres } from '../parts/figures.ts';
import { reasonWords, routeWords } from '../parts/words.ts';
import { attachedWords } from '../runForm/attached.ts';
import type { BenchDraft, BenchField, NumberFieldName } from '../runForm/benchDraft.ts';
import type { BenchReading } from '../runForm/readBenchDraft.ts';

export interface SoFarRow {
  name: string;
  value: string;
  /** It cannot be right as it stands: the message is beside its field. */
  isWrong: boolean;
}

export function buildSoFar(
  draft: BenchDraft,
  { errors }: Pick<BenchReading, 'errors'>,
  { analyzers, syringes, technologists }: Pick<Logbook, 'analyzers' | 'syringes' | 'technologists'>,
): SoFarRow[] {
  const analyzer = analyzers.get(draft.analyzerId)?.description;
  const syringe = syringes.get(draft.syringeId)?.description;
  const typed = (field: NumberFieldName, unit: string) => {
    const text = draft[field].trim();
    return text === '' ? undefined : `${text} ${unit}`;
  };
  const rows: readonly [field: BenchField, name: string, value: string | undefined][] = [
    ['technologistId', 'Technologist', technologists.get(draft.technologistId)?.name],
    ['analyzerId', 'Analyzer', analyzer?.label],
    ['route', 'Route', analyzer && routeWords[draft.route]],
    ['reason', 'Reason', analyzer && reasonWords[draft.reason]],
    [
      'syringeId',
      'Syringe',
      syringe && `${syringe.label}, ${millilitres(syringe.deadSpaceL * 1000)} mL dead space`,
    ],
    ['attached', 'Left on it', draft.attached.length > 0 ? attachedWords(draft.attached) : undefined],
    ['temperature', 'Temperature', typed('temperature', draft.temperatureUnit)],
    ['pressure', 'Pressure', typed('pressure', draft.pressureUnit)],
    ['humidity', 'Humidity', typed('humidity', '%')],
    ['volumeCheck', 'Volume check', typed('volumeCheck', 'L BTPS')],
    ['va', 'VA', typed('va', `L ${draft.vaReportedAs}`)],
    ['dlco', 'DLCO', typed('dlco', draft.dlcoUnit)],
    ['inspiredVolume', 'Inspired volume', typed('inspiredVolume', `L ${draft.vaReportedAs}`)],
    ['breathHold', 'Breath-hold', typed('breathHold', 's')],
  ];
  return rows.flatMap(([field, name, value]) =>
    value === undefined ? [] : [{ name, value, isWrong: errors[field] !== undefined }],
  );
}
