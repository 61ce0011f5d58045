/** The forms' readings on an open logbook, where a name can be taken already. `own`: the record that is changed. Pure. */
import type { Analyzer, Cylinder, Logbook, Syringe, Technologist } from '../../journal/logbook.ts';
import { namesBeside, refuseTaken } from './namesTaken.ts';
import { type AnalyzerDraft, readAnalyzer } from './readAnalyzer.ts';
import { type CylinderDraft, readCylinder } from './readCylinder.ts';
import { type PersonDraft, readPerson } from './readPerson.ts';
import { readSyringe, type SyringeDraft } from './readSyringe.ts';

const isCalled = (what: string) => (taken: string) =>
  `${what} in use is called “${taken}” already. Type another name, or retire that one first.`;
const labelOf = ({ description }: { description: { label: string } }) => description.label;

export const analyzerReader =
  ({ analyzers }: Logbook, own?: Analyzer) =>
  (draft: AnalyzerDraft) =>
    refuseTaken(readAnalyzer(draft), {
      field: 'label',
      name: draft.label,
      own: own?.description.label ?? '',
      others: namesBeside(analyzers, own?.id, labelOf),
      say: isCalled('An analyzer'),
    });

export const syringeReader =
  ({ syringes }: Logbook, own?: Syringe) =>
  (draft: SyringeDraft) =>
    refuseTaken(readSyringe(draft), {
      field: 'label',
      name: draft.label,
      own: own?.description.label ?? '',
      others: namesBeside(syringes, own?.id, labelOf),
      say: isCalled('A syringe'),
    });

export const cylinderReader =
  ({ cylinders }: Logbook, own?: Cylinder) =>
  (draft: CylinderDraft) =>
    refuseTaken(readCylinder(draft), {
      field: 'label',
      name: draft.label,
      own: own?.description.label ?? '',
      others: namesBeside(cylinders, own?.id, labelOf),
      say: isCalled('A cylinder'),
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
