import type { ScheduledCheck } from '../../journal/entries.ts';
import { scheduleOf } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { checkWords, intervalWords } from '../scheduleWords.ts';
import { ScheduleFields } from './scheduleFields.tsx';
import { SetBy } from './setBy.tsx';
import {
  isSameSchedule,
  readSchedule,
  type Schedule,
  type ScheduleDraft,
  scheduleDraft,
  scheduleInWords,
  scheduleWarnings,
  setSchedule,
  usualSchedule,
  waysToBeDue,
} from './setSchedule.ts';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

export function SchedulePage({ check }: { check: ScheduledCheck }) {
  const { logbook } = useLogbook();
  const own = scheduleOf(logbook, check);
  const usual = usualSchedule(check);
  const schedule: Schedule = own ?? usual;
  const entries = logbook.schedules.filter(({ body }) => body.check === check);
  const newest = entries.at(-1);
  const name = checkWords[check];
  return (
    <SettingPage<ScheduleDraft, Schedule>
      change="Set the schedule…"
      form={{
        title: `Set the schedule: ${name.toLowerCase()}`,
        explanation: 'Today and the bench go by it from now on. What was done stays done.',
        action: 'Set the schedule',
        initial: scheduleDraft(schedule, usual),
        usual: { name: `the usual: ${intervalWords(usual.every)}`, draft: scheduleDraft(usual, usual) },
        read: readSchedule,
        fields: (props) => <ScheduleFields {...props} ways={waysToBeDue(check)} />,
        // The usual one made the laboratory's own is a change: from then on it is missed where it is not done.
        isInForce: (value) => own !== undefined && isSameSchedule(own, value),
        warningsAbout: (value) => scheduleWarnings(check, value),
        makeEntries: (value, by, reason) => setSchedule(check, value, by, reason),
        setting: newest?.id,
      }}
      history={settingHistory(
        entries,
        scheduleInWords(usual, 'usual'),
        ({ body }) => scheduleInWords(body, 'laboratory'),
        'Schedule set',
      )}
      method="checks"
      rows={[
        ...scheduleInWords(schedule, own === undefined ? 'usual' : 'laboratory'),
        { name: 'The usual', value: usual.source },
      ]}
      standing={
        newest ? <SetBy entry={newest} what="Set" /> : <p>Nobody has set it: the usual schedule holds.</p>
      }
      title={name}
    />
  );
}
