import { Link } from 'wouter';
import { newControlHref } from '../deskRoutes.ts';
import { checkHref } from '../routes.ts';
import type { DueCheck } from '../schedule.ts';
import { checkWords, isNotedCheck } from '../scheduleWords.ts';

/** Where one goes to have it done: the form that notes or enters it, or the cylinder's record. A simulation starts from its line. */
export function CheckAction({ due: { check, about }, name }: { due: DueCheck; name: string }) {
  if (check === 'cylinder-expiry') {
    return <Link href={`/equipment/cylinder/${about.id}`}>See the cylinder</Link>;
  }
  if (check === 'biological-control' || check === 'simulator') {
    return (
      <Link href={newControlHref(check === 'simulator' ? 'simulator' : 'biological', about.id)}>
        Enter it
        <span className="for-readers">
          : {checkWords[check]}, {name}
        </span>
      </Link>
    );
  }
  if (!isNotedCheck(check)) return null;
  return (
    <Link href={checkHref(check, about.id)}>
      Note it
      <span className="for-readers">
        : {checkWords[check]}, {name}
      </span>
    </Link>
  );
}
