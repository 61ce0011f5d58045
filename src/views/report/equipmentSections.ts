/** People and equipment that a period's records name. Pure. */
import type { Logbook, Retirement } from '../../journal/logbook.ts';
import { subjectStateAt } from '../../journal/standing.ts';
import { contentsInShort } from '../gases.ts';
import { civilDay, day, litresAsTyped, millilitres } from '../parts/figures.ts';
import { roleWords } from '../parts/words.ts';
import { type Block, type Section, section } from './reportModel.ts';
import { endOf, type Period, type ReportSources } from './reportSources.ts';

export function equipmentSections(period: Period, { logbook }: ReportSources): readonly Section[] {
  return [
    ...section('equipment', 'Syringes and cylinders', [...syringes(logbook), ...cylinders(logbook, period)]),
    ...section('people', 'People', [...people(logbook), ...subjects(logbook, period)]),
  ];
}

const retiredWords = (retired: Retirement | null) =>
  retired === null ? 'in use' : `retired ${day(retired.at)}`;
const dateWords = (date: string | null) => (date === null ? 'not known' : civilDay(date));
const orDash = (text: string) => (text === '' ? '–' : text);

function syringes(logbook: Logbook): Block[] {
  const all = [...logbook.syringes.values()];
  if (all.length === 0) return [];
  return [
    {
      kind: 'table',
      id: 'syringes',
      caption: 'Syringes',
      columns: [
        { head: 'Syringe' },
        { head: 'Serial number' },
        { head: 'Nominal', unit: 'L', isNumber: true },
        { head: 'Certified', unit: 'L', isNumber: true },
        { head: 'Dead space', unit: 'mL', isNumber: true },
        { head: 'Calibration due' },
        { head: 'Leak check due' },
        { head: 'State' },
      ],
      rows: all.map(({ description, retired }) => [
        description.label,
        orDash(description.serial),
        litresAsTyped(description.volumeL),
        description.certifiedVolumeL === undefined ? '–' : litresAsTyped(description.certifiedVolumeL),
        millilitres(description.deadSpaceL * 1000),
        dateWords(description.calibrationDueOn),
        dateWords(description.leakCheckDueOn),
        retiredWords(retired),
      ]),
    },
  ];
}

/** Those that were still in use when the period began. */
function cylinders(logbook: Logbook, { from }: Period): Block[] {
  const used = [...logbook.cylinders.values()].filter(
    ({ retired }) => retired === null || retired.at.slice(0, 10) >= from,
  );
  if (used.length === 0) return [];
  return [
    {
      kind: 'table',
      id: 'cylinders',
      caption: 'Cylinders of test gas',
      columns: [
        { head: 'Cylinder' },
        { head: 'Serial number' },
        { head: 'Holds' },
        { head: 'Certified until' },
        { head: 'State' },
      ],
      rows: used.map(({ description, retired }) => [
        description.label,
        orDash(description.serial),
        contentsInShort(description),
        dateWords(description.expiresOn),
        retiredWords(retired),
      ]),
    },
  ];
}

const people = ({ technologists }: Logbook): Block[] => [
  {
    kind: 'table',
    id: 'people',
    caption: 'Whose initials stand in this report',
    columns: [
      { head: 'Initials', width: 14 },
      { head: 'Name' },
      { head: 'Role', width: 22 },
      { head: 'State', width: 26 },
    ],
    rows: [...technologists.values()].map(({ initials, name, role, retired }) => [
      initials,
      name,
      roleWords[role],
      retiredWords(retired),
    ]),
  },
];

const stateWords = { active: 'is tested', paused: 'pauses', excluded: 'counts in no mean' } as const;

/** By code alone: the logbook holds nothing else of them. */
function subjects(logbook: Logbook, period: Period): Block[] {
  const all = [...logbook.subjects.values()];
  if (all.length === 0) return [];
  return [
    {
      kind: 'table',
      id: 'subjects',
      caption: 'Biological controls, known by a code, at the end of the period',
      columns: [{ head: 'Code', width: 20 }, { head: 'State', width: 30 }, { head: 'Note' }],
      rows: all.map(({ id, description, retired }) => [
        description.code,
        retired === null ? stateWords[subjectStateAt(logbook, id, endOf(period))] : `left ${day(retired.at)}`,
        orDash(description.note),
      ]),
    },
  ];
}
