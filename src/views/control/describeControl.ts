/** A control in words, field by field: how it is shown, and what an amendment changed of it. Pure. */
import { withoutBinaryNoise } from '../../journal/binaryNoise.ts';
import type { BiologicalContent, Control, SimulatorContent, SimulatorLevel } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { levelWords } from '../charting/controlHeading.ts';
import { type ContentField, ifThere, initialsAndName, notThere } from '../parts/contentFields.ts';
import {
  dayAndTime,
  dlcoTyped,
  limitPercent,
  litresAsTyped,
  plain,
  dlco as writeDlco,
} from '../parts/figures.ts';
import { levels } from './controlDraft.ts';

type Known = Pick<Logbook, 'analyzers' | 'technologists' | 'subjects' | 'cylinders'>;
type Field = ContentField<Control>;

/** Every field of a control that an amendment can change, in the order of the form. `zone`: the control's own. */
export function fieldsOfControl(kind: Control['kind'], known: Known, zone: string): readonly Field[] {
  const common = fieldsInCommon(known, zone);
  const limits: Field = { name: 'Published limits', write: (control) => limitWords(control) };
  const comment: Field = { name: 'Comment', write: ({ comment: text }) => text || notThere };
  return kind === 'biological'
    ? [...common, ...biologicalFields(known), limits, comment]
    : [...common, ...simulatorFields(known), limits, comment];
}

function fieldsInCommon({ analyzers, technologists }: Known, zone: string): Field[] {
  return [
    { name: 'Made at', write: ({ madeAt }) => dayAndTime(madeAt, zone), key: ({ madeAt }) => madeAt },
    {
      name: 'Analyzer',
      write: ({ analyzerId }) => analyzers.get(analyzerId)?.description.label ?? 'unknown',
      key: ({ analyzerId }) => analyzerId,
    },
    {
      name: 'Technologist',
      write: ({ technologistId }) => initialsAndName(technologists, technologistId),
      key: ({ technologistId }) => technologistId,
    },
  ];
}

const biologicalField =
  (write: (control: BiologicalContent) => string) =>
  (control: Control): string =>
    control.kind === 'biological' ? write(control) : notThere;

function biologicalFields({ subjects }: Known): Field[] {
  return [
    {
      name: 'Subject',
      write: biologicalField(({ subjectId }) => subjects.get(subjectId)?.description.code ?? 'unknown'),
      key: biologicalField(({ subjectId }) => subjectId),
    },
    {
      name: 'DLCO as reported',
      write: biologicalField(({ reading: { dlco, dlcoUnit } }) => `${dlcoTyped(dlco, dlcoUnit)} ${dlcoUnit}`),
    },
    {
      name: 'VA as reported',
      write: biologicalField(({ reading }) => `${litresAsTyped(reading.vaL)} L BTPS`),
    },
    {
      name: 'Inspired volume',
      write: biologicalField(({ reading }) => ifThere(reading.inspiredVolumeL, 'L BTPS', litresAsTyped)),
    },
    {
      name: 'Haemoglobin',
      write: biologicalField(({ haemoglobin }) =>
        haemoglobin === undefined ? notThere : `${plain(haemoglobin.value)} ${haemoglobin.unit}`,
      ),
    },
  ];
}

type Level = SimulatorContent['levels'][number];

function simulatorFields({ cylinders }: Known): Field[] {
  const ofLevel =
    (name: SimulatorLevel, write: (level: Level) => string) =>
    (control: Control): string => {
      const level =
        control.kind === 'simulator' ? control.levels.find((one) => one.level === name) : undefined;
      return level === undefined ? notThere : write(level);
    };
  return [
    {
      name: 'Simulator',
      write: (control) => (control.kind === 'simulator' ? control.simulator || notThere : notThere),
    },
    ...levels.flatMap((name): Field[] => {
      const word = levelWords[name];
      return [
        { name: `${word}, target`, write: ofLevel(name, targetWords) },
        {
          name: `${word}, cylinder`,
          write: ofLevel(name, ({ cylinderId }) =>
            cylinderId === undefined ? notThere : (cylinders.get(cylinderId)?.description.label ?? 'unknown'),
          ),
          key: ofLevel(name, ({ cylinderId = '' }) => cylinderId),
        },
        {
          name: `${word}, DLCO`,
          write: ofLevel(
            name,
            ({ reading: { dlco, dlcoUnit } }) => `${dlcoTyped(dlco, dlcoUnit)} ${dlcoUnit}`,
          ),
        },
        {
          name: `${word}, VA`,
          write: ofLevel(name, ({ reading }) => ifThere(reading.vaL, 'L BTPS', litresAsTyped)),
        },
        {
          name: `${word}, breath-hold`,
          write: ofLevel(name, ({ reading }) => ifThere(reading.breathHoldS, 's')),
        },
      ];
    }),
  ];
}

const percentOf = (fraction: number) => `${plain(withoutBinaryNoise(fraction * 100))} %`;

/** The target, and from what it was known. */
function targetWords({ targetMlMinMmHg, basis }: Level): string {
  if (basis.kind === 'certificate') {
    return `${dlcoTyped(basis.dlco, basis.dlcoUnit)} ${basis.dlcoUnit}, from the certificate`;
  }
  const { inspired, alveolar, vaBtpsL, breathHoldS, barometricMmHg } = basis;
  return (
    `${writeDlco(targetMlMinMmHg, 'mL/min/mmHg')} mL/min/mmHg, computed from ` +
    `CO ${percentOf(inspired.co)} to ${percentOf(alveolar.co)}, tracer ${percentOf(inspired.tracer)} to ${percentOf(alveolar.tracer)}, ` +
    `VA ${litresAsTyped(vaBtpsL)} L BTPS, ${plain(breathHoldS)} s, ${plain(withoutBinaryNoise(barometricMmHg))} mmHg`
  );
}

function limitWords(control: Control): string {
  const { edition, source } = control.limits;
  const inMl = `±${plain(control.limits.dlcoMlMinMmHg)} mL/min/mmHg`;
  const values =
    control.kind === 'biological'
      ? `±${limitPercent(control.limits.fraction)} %, ${inMl}, CV ${limitPercent(control.limits.cv)} %`
      : inMl;
  return `${edition}: ${values}. ${source}`;
}
