/** The forms' readings on an open logbook, where a name can be taken already. `own`: the record that is changed. Pure. */
import type { SubjectDescription } from '../../journal/entries.ts';
import type {
  Analyzer,
  Cylinder,
  Logbook,
  Retirement,
  Subject,
  Syringe,
  Technologist,
} from '../../journal/logbook.ts';
import type { FormReading } from '../parts/formReading.ts';
import { namesBeside, namesOfRetired, refuseTaken } from './namesTaken.ts';
import { readAnalyzer } from './readAnalyzer.ts';
import { readCylinder } from './readCylinder.ts';
import { type PersonDraft, readPerson } from './readPerson.ts';
import { askAboutSubject, readSubject, type SubjectDraft } from './readSubject.ts';
import { readSyringe } from './readSyringe.ts';

interface Labelled {
  id: string;
  description: { label: string };
  retired: Retirement | null;
}

/** `what`: with its article, at the beginning of a sentence. */
const labelReader =
  <T extends { label: string }, D>(
    read: (draft: T) => FormReading<T, D>,
    records: ReadonlyMap<string, Labelled>,
    own: Labelled | undefined,
    what: string,
  ) =>
  (draft: T): FormReading<T, D> =>
    refuseTaken(read(draft), {
      field: 'label',
      name: draft.label,
      own: own?.description.label ?? '',
      others: namesBeside(records, own?.id, ({ description }) => description.label),
      say: (taken) =>
        `${what} in use is called “${taken}” already. Type another name, or retire that one first.`,
    });

export const analyzerReader = ({ analyzers }: Logbook, own?: Analyzer) =>
  labelReader(readAnalyzer, analyzers, own, 'An analyzer');

export const syringeReader = ({ syringes }: Logbook, own?: Syringe) =>
  labelReader(readSyringe, syringes, own, 'A syringe');

export const cylinderReader = ({ cylinders }: Logbook, own?: Cylinder) =>
  labelReader(readCylinder, cylinders, own, 'A cylinder');

export const subjectReader =
  ({ subjects }: Logbook, own?: Subject) =>
  (draft: SubjectDraft) =>
    refuseTaken(readSubject(draft), {
      field: 'code',
      name: draft.code,
      own: own?.description.code ?? '',
      others: namesBeside(subjects, own?.id, ({ description }) => description.code),
      say: (taken) =>
        `“${taken}” stands for somebody else already. Type another code: it alone tells their tests apart.`,
    });

/** What is asked about a subject's description, on an open logbook. */
export const subjectQuestions =
  ({ subjects }: Logbook, before?: SubjectDescription) =>
  (description: SubjectDescription) =>
    askAboutSubject(description, {
      ...(before && { before }),
      left: namesOfRetired(subjects, ({ description: { code } }) => code),
    });

export const personReader =
  ({ technologists }: Logbook, own?: Technologist) =>
  (draft: PersonDraft) =>
    refuseTaken(readPerson(draft), {
      field: 'initials',
      name: draft.initials,
      own: own?.initials ?? '',
      others: namesBeside(technologists, own?.id, ({ initials }) => initials),
      say: (taken) =>
        `“${taken}” stands for somebody else already. Type other initials: they alone tell people apart beside a record.`,
    });
