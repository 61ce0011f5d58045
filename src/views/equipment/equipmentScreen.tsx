import { Link, useParams } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { AddRecord } from './addRecord.tsx';
import { AnalyzerRecord } from './analyzerRecord.tsx';
import { CylinderRecord } from './cylinderRecord.tsx';
import './equipment.css';
import { EquipmentList } from './equipmentList.tsx';
import { PersonRecord } from './personRecord.tsx';
import { SubjectRecord } from './subjectRecord.tsx';
import { SubjectsPage } from './subjectsPage.tsx';
import { SyringeRecord } from './syringeRecord.tsx';

export default function EquipmentScreen() {
  const { logbook } = useLogbook();
  const { '*': rest = '' } = useParams();
  const rightPage = useChosenInSight(rest);
  const [kind = '', id = ''] = rest.split('/');
  const analyzers = [...logbook.analyzers.values()];
  const first = analyzers.find(({ retired }) => retired === null) ?? analyzers[0];
  const chosen = kind === '' ? { kind: 'analyzer', id: first?.id ?? '' } : { kind, id };
  return (
    <Spread
      left={<EquipmentList chosen={chosen} />}
      right={
        <div ref={rightPage}>
          <Chosen id={chosen.id} key={`${chosen.kind} ${chosen.id}`} kind={chosen.kind} />
        </div>
      }
      wide="right"
    />
  );
}

function Chosen({ kind, id }: { kind: string; id: string }) {
  const { logbook } = useLogbook();
  const analyzer = logbook.analyzers.get(id);
  const syringe = logbook.syringes.get(id);
  const cylinder = logbook.cylinders.get(id);
  const subject = logbook.subjects.get(id);
  const person = logbook.technologists.get(id);
  if (kind === 'new') return <AddRecord what={id} />;
  if (kind === 'analyzer' && analyzer) return <AnalyzerRecord analyzer={analyzer} />;
  if (kind === 'syringe' && syringe) return <SyringeRecord syringe={syringe} />;
  if (kind === 'cylinder' && cylinder) return <CylinderRecord cylinder={cylinder} />;
  if (kind === 'subject' && subject) return <SubjectRecord subject={subject} />;
  if (kind === 'subjects') return <SubjectsPage />;
  if (kind === 'person' && person) return <PersonRecord person={person} />;
  return (
    <Notice title="This address names nothing in the logbook." tone="quiet">
      <p>
        Choose a record from the list, or <Link href="/equipment">go to the first analyzer</Link>.
      </p>
    </Notice>
  );
}
