import { Link } from 'wouter';
import { localDay, localZone } from '../parts/localTime.ts';
import { Notice } from '../parts/notice.tsx';
import { checkHref } from '../routes.ts';
import { type DueCheck, isNeverNoted } from '../schedule.ts';
import { checkWords, dueSentence } from '../scheduleWords.ts';
import { StateMark } from './stateMark.tsx';
import { useEquipmentDue } from './useEquipmentDue.ts';

/** To be done before the syringe can be trusted. */
export const isPressing = (one: DueCheck) =>
  !isNeverNoted(one) && (one.failed !== null || one.droppedAt !== null || one.due.state === 'overdue');

/** At the top of a syringe's record: what has to be done before it can be trusted. */
export function SyringeState({ syringeId }: { syringeId: string }) {
  const { due, now } = useEquipmentDue();
  const pressing = due.filter((one) => one.about.id === syringeId && isPressing(one));
  return pressing.map((one) => {
    const tone = one.failed === null ? 'warn' : 'fail';
    return (
      <Notice
        key={one.check}
        title={<StateMark tone={tone} words={dueSentence(one, localDay(now), localZone())} />}
        tone={tone}
      >
        {one.droppedAt === null ? null : (
          <p>Not to be used before leak and stop are checked (ATS laboratory manual, 3rd ed.).</p>
        )}
        {one.check === 'syringe-leak' || one.check === 'syringe-calibration' ? (
          <p>
            <Link href={checkHref(one.check, syringeId)}>Note the {checkWords[one.check].toLowerCase()}</Link>
          </p>
        ) : null}
      </Notice>
    );
  });
}
