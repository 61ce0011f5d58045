import { Link, useLocation, useParams } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { CheckLimitsPage } from './checkLimitsPage.tsx';
import { ClosingPage } from './closingPage.tsx';
import { LimitsPage } from './limitsPage.tsx';
import { PolicyPage } from './policyPage.tsx';
import { SchedulePage } from './schedulePage.tsx';
import { SettingList } from './settingList.tsx';
import { isScheduledCheck, writingPath } from './settings.ts';
import { WritingPage } from './writingPage.tsx';

export default function LaboratoryScreen() {
  const { logbook } = useLogbook();
  const { '*': rest = '' } = useParams();
  const [location] = useLocation();
  const rightPage = useChosenInSight(rest);
  const at = new Date(useNow(logbook)).toISOString();
  return (
    <Spread
      left={<SettingList at={at} chosen={rest === '' ? writingPath : location} />}
      right={
        <div ref={rightPage}>
          <Chosen at={at} key={rest} rest={rest} />
        </div>
      }
    />
  );
}

function Chosen({ rest, at }: { rest: string; at: string }) {
  const { logbook } = useLogbook();
  const [what = '', which = ''] = rest.split('/');
  const analyzer = logbook.analyzers.get(which);
  if (what === '' || what === 'writing') return <WritingPage />;
  if (what === 'schedule' && isScheduledCheck(which)) return <SchedulePage check={which} />;
  if (what === 'limits') return <LimitsPage at={at} />;
  if (what === 'check-limits') return <CheckLimitsPage at={at} />;
  if (what === 'closing') return <ClosingPage />;
  if (what === 'policy' && analyzer) return <PolicyPage analyzer={analyzer} at={at} />;
  return (
    <Notice title="This address names no setting." tone="quiet">
      <p>
        Choose one from the list, or <Link href={writingPath}>go to the form of writing</Link>.
      </p>
    </Notice>
  );
}
