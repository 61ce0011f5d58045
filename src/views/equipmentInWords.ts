/** What a record says of itself under its name, field by field: on its page, and in its history where one is changed. Pure. */
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type {
  AnalyzerDescription,
  CylinderDescription,
  SubjectDescription,
  SyringeDescription,
  TechnologistDescription,
} from '../journal/entries.ts';
import type { Logbook } from '../journal/logbook.ts';
import { balancePercent, gasAnalysisWords, percentOf, tracerWords } from './gases.ts';
import { gasWords } from './gasNames.ts';
import type { FieldInWords } from './parts/fieldsInWords.ts';
import { civilDay, litresAsTyped, plain } from './parts/figures.ts';
import { conversionWords, roleWords, routeWords } from './parts/words.ts';

const inMillilitres = (litres: number) => `${plain(withoutBinaryNoise(litres * 1000))} mL`;
const dueOn = (date: string | null) => (date === null ? 'not known' : civilDay(date));

export const personInWords = ({ initials, role }: TechnologistDescription): FieldInWords[] => [
  { name: 'Initials', value: initials },
  { name: 'Role', value: roleWords[role] },
];

export const subjectInWords = ({ note }: SubjectDescription): FieldInWords[] => [
  { name: 'Note', value: note || '–' },
];

export const syringeInWords = (description: SyringeDescription): FieldInWords[] => [
  { name: 'Serial number', value: description.serial || '–' },
  { name: 'Nominal volume', value: `${litresAsTyped(description.volumeL)} L` },
  {
    name: 'Volume from certificate',
    value:
      description.certifiedVolumeL === undefined
        ? 'not known'
        : `${litresAsTyped(description.certifiedVolumeL)} L`,
  },
  { name: 'Dead space', value: inMillilitres(description.deadSpaceL) },
  {
    name: 'Hoses and filters',
    value:
      (description.attachments ?? [])
        .map(({ name, volumeL }) => `${name} ${inMillilitres(volumeL)}`)
        .join(', ') || 'none',
  },
  { name: 'Calibration due on', value: dueOn(description.calibrationDueOn) },
  { name: 'Leak check due on', value: dueOn(description.leakCheckDueOn) },
];

export const analyzerInWords = (
  description: AnalyzerDescription,
  syringes: Logbook['syringes'],
): FieldInWords[] => [
  { name: 'Place', value: description.place || '–' },
  { name: 'Serial number', value: description.serial || '–' },
  {
    name: 'Gas analysis',
    value: description.gasAnalysis === undefined ? 'not said' : gasAnalysisWords[description.gasAnalysis],
  },
  {
    name: 'Tracer gas',
    value: description.tracer === undefined ? 'not said' : tracerWords[description.tracer],
  },
  { name: 'Usual syringe', value: syringes.get(description.syringeId)?.description.label ?? '–' },
  { name: 'Usual route', value: routeWords[description.route] },
  { name: 'VA is reported as', value: description.vaReportedAs },
  { name: 'VA is converted', value: conversionWords(description.conversion) },
  { name: 'Dead space it subtracts', value: inMillilitres(description.analyzerDeadSpaceL) },
  {
    name: 'Plunger at the start',
    value: description.volumeInsideL === 0 ? 'home' : `at ${litresAsTyped(description.volumeInsideL)} L`,
  },
  { name: 'Units', value: `${description.pressureUnit}, ${description.dlcoUnit}` },
];

export const cylinderInWords = (description: CylinderDescription): FieldInWords[] => [
  { name: 'Serial number', value: description.serial || '–' },
  ...description.contents.map(({ gas, fraction }) => ({
    name: gasWords[gas],
    value: `${plain(percentOf(fraction))} %`,
  })),
  { name: 'Balance', value: `${plain(balancePercent(description))} %` },
  { name: 'Certified until', value: dueOn(description.expiresOn) },
];
