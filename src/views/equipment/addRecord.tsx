import { useLocation } from 'wouter';
import type { EntryDraft } from '../../journal/entries.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localDay } from '../parts/localTime.ts';
import { AnalyzerFields } from './analyzerFields.tsx';
import { consequenceOfRole } from './consequences.ts';
import { CylinderFields } from './cylinderFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { addAnalyzer, addCylinder, addPerson, addSubject, addSyringe } from './makeEntries.ts';
import { PersonFields } from './personFields.tsx';
import { newAnalyzer } from './readAnalyzer.ts';
import { askAboutCylinder, emptyCylinder } from './readCylinder.ts';
import {
  analyzerReader,
  cylinderReader,
  personReader,
  subjectQuestions,
  subjectReader,
  syringeReader,
} from './readers.ts';
import { emptyPerson } from './readPerson.ts';
import { emptySubject } from './readSubject.ts';
import { askAboutSyringe, emptySyringe } from './readSyringe.ts';
import { SubjectFields } from './subjectFields.tsx';
import { SyringeFields } from './syringeFields.tsx';

/** The form that adds a record; `what` as its address names it. */
export function AddRecord({ what }: { what: string }) {
  const { logbook } = useLogbook();
  const [, goTo] = useLocation();
  const frame = {
    onCancel: () => goTo('/equipment'),
    onDone: ([added]: readonly EntryDraft[]) => goTo(hrefOf(added)),
  };
  switch (what) {
    case 'analyzer':
      return (
        <DescriptionForm
          {...frame}
          Fields={AnalyzerFields}
          action="Add analyzer"
          initial={newAnalyzer(logbook)}
          makeEntries={addAnalyzer}
          read={analyzerReader(logbook)}
          title="Add an analyzer"
        />
      );
    case 'syringe':
      return (
        <DescriptionForm
          {...frame}
          Fields={SyringeFields}
          action="Add syringe"
          initial={emptySyringe}
          makeEntries={addSyringe}
          questionsAbout={(description) => askAboutSyringe(description)}
          read={syringeReader(logbook)}
          title="Add a syringe"
        />
      );
    case 'cylinder':
      return (
        <DescriptionForm
          {...frame}
          Fields={CylinderFields}
          action="Add cylinder"
          initial={emptyCylinder}
          makeEntries={addCylinder}
          questionsAbout={(description) => askAboutCylinder(description, localDay(Date.now()))}
          read={cylinderReader(logbook)}
          title="Add a cylinder"
        />
      );
    case 'subject':
      return (
        <DescriptionForm
          {...frame}
          Fields={SubjectFields}
          action="Add subject"
          initial={emptySubject}
          makeEntries={addSubject}
          questionsAbout={subjectQuestions(logbook)}
          read={subjectReader(logbook)}
          title="Add a biological control"
        />
      );
    default:
      return (
        <DescriptionForm
          {...frame}
          Fields={PersonFields}
          action="Add person"
          consequenceOf={(added) => consequenceOfRole(null, added.role, logbook)}
          initial={emptyPerson}
          makeEntries={addPerson}
          read={personReader(logbook)}
          title="Add a person"
        />
      );
  }
}

/** The record that an entry added. */
function hrefOf(added: EntryDraft | undefined): string {
  switch (added?.kind) {
    case 'analyzer-added':
      return `/equipment/analyzer/${added.body.analyzerId}`;
    case 'syringe-added':
      return `/equipment/syringe/${added.body.syringeId}`;
    case 'cylinder-added':
      return `/equipment/cylinder/${added.body.cylinderId}`;
    case 'subject-added':
      return `/equipment/subject/${added.body.subjectId}`;
    case 'technologist-added':
      return `/equipment/person/${added.body.technologistId}`;
    default:
      return '/equipment';
  }
}
