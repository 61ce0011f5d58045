import { Link, useLocation, useParams } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { AnalyzerRecord } from './analyzerRecord.tsx';
import { AnalyzerFields, PersonFields, SyringeFields } from './descriptionFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import './equipment.css';
import { EquipmentList } from './equipmentList.tsx';
import { addAnalyzer, addPerson, addSyringe } from './makeEntries.ts';
import { PersonRecord } from './personRecord.tsx';
import {
  emptyAnalyzer,
  emptyPerson,
  emptySyringe,
  readAnalyzer,
  readPerson,
  readSyringe,
} from './readForms.ts';
import { SyringeRecord } from './syringeRecord.tsx';

export default function EquipmentScreen() {
  const { logbook } = useLogbook();
  const { '*': rest = '' } = useParams();
  const rightPage = useChosenInSight(rest);
  const [kind = '', id = ''] = rest.split('/');
  const [firstAnalyzer = ''] = logbook.analyzers.keys();
  const chosen = kind === '' ? { kind: 'analyzer', id: firstAnalyzer } : { kind, id };
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
  const person = logbook.technologists.get(id);
  if (kind === 'new') return <Add what={id} />;
  if (kind === 'analyzer' && analyzer) return <AnalyzerRecord analyzer={analyzer} />;
  if (kind === 'syringe' && syringe) return <SyringeRecord syringe={syringe} />;
  if (kind === 'person' && person) return <PersonRecord person={person} />;
  return (
    <Notice title="This address names nothing in the logbook." tone="quiet">
      <p>
        Choose a record from the list, or <Link href="/equipment">go to the first analyzer</Link>.
      </p>
    </Notice>
  );
}

function Add({ what }: { what: string }) {
  const { logbook } = useLogbook();
  const [, goTo] = useLocation();
  const leave = () => goTo('/equipment');
  const [firstSyringe] = [...logbook.syringes.values()].filter(({ retired }) => retired === null);
  switch (what) {
    case 'analyzer':
      return (
        <DescriptionForm
          Fields={AnalyzerFields}
          action="Add analyzer"
          initial={{ ...emptyAnalyzer, syringeId: firstSyringe?.id ?? '' }}
          makeEntries={addAnalyzer}
          onCancel={leave}
          onDone={([entry]) =>
            goTo(
              entry?.kind === 'analyzer-added'
                ? `/equipment/analyzer/${entry.body.analyzerId}`
                : '/equipment',
            )
          }
          read={readAnalyzer}
          title="Add an analyzer"
        />
      );
    case 'syringe':
      return (
        <DescriptionForm
          Fields={SyringeFields}
          action="Add syringe"
          initial={emptySyringe}
          makeEntries={addSyringe}
          onCancel={leave}
          onDone={([entry]) =>
            goTo(
              entry?.kind === 'syringe-added' ? `/equipment/syringe/${entry.body.syringeId}` : '/equipment',
            )
          }
          read={readSyringe}
          title="Add a syringe"
        />
      );
    default:
      return (
        <DescriptionForm
          Fields={PersonFields}
          action="Add person"
          initial={emptyPerson}
          makeEntries={addPerson}
          onCancel={leave}
          onDone={([entry]) =>
            goTo(
              entry?.kind === 'technologist-added'
                ? `/equipment/person/${entry.body.technologistId}`
                : '/equipment',
            )
          }
          read={readPerson}
          title="Add a person"
        />
      );
  }
}
