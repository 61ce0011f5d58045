/** A run in words, field by field, and what an amendment changed of it. Pure. */

import type { Method } from '../../core/index.ts';
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { RunContent } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { type ContentField, ifThere, initialsAndName, notThere } from '../parts/contentFields.ts';
import { dayAndTime, dlcoTyped, litresAsTyped, plain } from '../parts/figures.ts';
import { conversionWords, reasonWords, routeWords } from '../parts/words.ts';
import { recordedWords } from '../runForm/attached.ts';

export type RunField = ContentField<RunContent>;

/** 0.29 · 100 is 28.999999999999996. */
const scaled = (value: number, factor: number) => plain(withoutBinaryNoise(value * factor));
const methodWords: Record<Method, string> = { syringe: 'Syringe', 'precision-gas': 'Precision gas' };

/** Every field of a run that an amendment can change, in the order of the form. `zone`: the run's own. */
export function fieldsOf(
  { analyzers, syringes, technologists }: Pick<Logbook, 'analyzers' | 'syringes' | 'technologists'>,
  zone: string,
): readonly RunField[] {
  const labelOf = (equipment: ReadonlyMap<string, { description: { label: string } }>, id: string) =>
    equipment.get(id)?.description.label ?? 'unknown';
  return [
    { name: 'Made at', write: ({ madeAt }) => dayAndTime(madeAt, zone), key: ({ madeAt }) => madeAt },
    {
      name: 'Analyzer',
      write: ({ analyzerId }) => labelOf(analyzers, analyzerId),
      key: ({ analyzerId }) => analyzerId,
    },
    {
      name: 'Syringe',
      write: ({ syringeId }) => labelOf(syringes, syringeId),
      key: ({ syringeId }) => syringeId,
    },
    { name: 'Method', write: ({ method }) => methodWords[method] },
    { name: 'Route', write: ({ route }) => routeWords[route] },
    { name: 'Reason', write: ({ reason }) => reasonWords[reason] },
    {
      name: 'Technologist',
      write: ({ technologistId }) => initialsAndName(technologists, technologistId),
      key: ({ technologistId }) => technologistId,
    },
    {
      name: 'Temperature',
      write: ({ ambient, temperatureAsTyped }) =>
        temperatureAsTyped
          ? `${plain(temperatureAsTyped.value)} ${temperatureAsTyped.unit}`
          : `${plain(ambient.temperatureC)} °C`,
    },
    {
      name: 'Barometric pressure',
      write: ({ pressureAsTyped: { value, unit } }) => `${plain(value)} ${unit}`,
    },
    {
      name: 'Relative humidity',
      write: ({ ambient: { relativeHumidity } }) =>
        ifThere(relativeHumidity, '%', (fraction) => scaled(fraction, 100)),
    },
    {
      name: 'VA as reported',
      write: ({ reading }) => `${litresAsTyped(reading.vaL)} L ${reading.vaReportedAs}`,
    },
    {
      name: 'DLCO as reported',
      write: ({ reading: { dlco, dlcoUnit } }) => `${dlcoTyped(dlco, dlcoUnit)} ${dlcoUnit}`,
    },
    {
      name: 'Inspired volume',
      write: ({ reading }) => ifThere(reading.inspiredVolumeL, `L ${reading.vaReportedAs}`, litresAsTyped),
    },
    {
      name: 'Volume check',
      write: ({ reading }) => ifThere(reading.volumeCheckL, 'L BTPS', litresAsTyped),
    },
    { name: 'Breath-hold time', write: ({ reading }) => ifThere(reading.breathHoldS, 's') },
    { name: 'VA is converted', write: ({ conversion }) => conversionWords(conversion) },
    {
      name: 'Analyzer’s dead space',
      write: ({ analyzerDeadSpaceL }) => `${scaled(analyzerDeadSpaceL, 1000)} mL`,
    },
    { name: 'Left on the syringe', write: ({ attached }) => recordedWords(attached) || notThere },
    { name: 'Syringe’s dead space', write: ({ syringe }) => `${scaled(syringe.deadSpaceL, 1000)} mL` },
    {
      name: 'Drawn into the syringe',
      write: ({ syringe: { strokeL, volumeInsideL } }) =>
        `${litresAsTyped(withoutBinaryNoise(strokeL))} L, plunger ${volumeInsideL === 0 ? 'home' : `at ${litresAsTyped(volumeInsideL)} L`}`,
    },
    { name: 'Published limits', write: ({ limits }) => `${limits.edition}: ${limits.source}` },
    { name: 'Comment', write: ({ comment }) => comment || notThere },
  ];
}
