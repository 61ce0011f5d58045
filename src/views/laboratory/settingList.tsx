import { Link } from 'wouter';
import type { Logbook } from '../../journal/logbook.ts';
import { closingRulesOf, laboratoryOf, scheduleOf } from '../../journal/standing.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { limitsInForce, policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { policyPath, schedulePath } from '../routes.ts';
import { checkWords } from '../scheduleWords.ts';
import { closingInShort } from './setClosing.ts';
import { differsFromUsual } from './setPolicy.ts';
import { madeWords, usualSchedule } from './setSchedule.ts';
import { checkLimitsPath, closingPath, limitsPath, scheduledChecks, writingPath } from './settings.ts';

interface Row {
  href: string;
  name: string;
  /** What is in force, in short. */
  aside: string;
}

/** The left page: all that is set, with what is in force beside it. */
export function SettingList({ chosen, at }: { chosen: string; at: string }) {
  const { logbook } = useLogbook();
  const { name } = laboratoryOf(logbook);
  return (
    <div className="stack stack--loose">
      <div className="stack">
        <h1>Laboratory</h1>
        {name === '' ? null : <p>{name}</p>}
      </div>
      <Rows
        chosen={chosen}
        rows={[{ href: writingPath, name: 'Name and form of writing', aside: setOrUsual(logbook) }]}
      />
      <section className="stack">
        <h2>Schedules</h2>
        <Rows chosen={chosen} rows={scheduleRows(logbook)} />
      </section>
      <section className="stack">
        <h2>Limits and policies</h2>
        <Rows
          chosen={chosen}
          rows={[
            { href: limitsPath, name: 'Published limits', aside: limitsInForce(logbook, at).edition },
            {
              href: checkLimitsPath,
              name: 'Limits of the other checks',
              aside: checkLimitsAt(logbook, at).edition,
            },
            ...policyRows(logbook, at),
          ]}
        />
      </section>
      <section className="stack">
        <h2>Failures</h2>
        <Rows
          chosen={chosen}
          rows={[
            {
              href: closingPath,
              name: 'What a closure needs',
              aside: closingInShort(closingRulesOf(logbook)),
            },
          ]}
        />
      </section>
      <p className="quiet small">
        A supervisor sets these, each with a reason. Nothing that was judged before is judged anew.
      </p>
    </div>
  );
}

const setOrUsual = ({ laboratory }: Logbook) => (laboratory.length > 0 ? 'set' : 'usual');

const scheduleRows = (logbook: Logbook): Row[] =>
  scheduledChecks.map((check) => {
    const own = scheduleOf(logbook, check);
    const words = madeWords(own ?? usualSchedule(check));
    return {
      href: schedulePath(check),
      name: checkWords[check],
      aside: own === undefined ? `usual, ${words}` : words,
    };
  });

const policyRows = (logbook: Logbook, at: string): Row[] =>
  [...logbook.analyzers.values()]
    .filter(({ retired }) => retired === null)
    .map(({ id, description }) => {
      const differs = differsFromUsual(policyInForce(logbook, { analyzerId: id, madeAt: at })).length;
      return {
        href: policyPath(id),
        name: `Policy of ${description.label}`,
        aside: differs === 0 ? 'usual' : `differs in ${differs}`,
      };
    });

function Rows({ rows, chosen }: { rows: readonly Row[]; chosen: string }) {
  return (
    <ul className="choose-list">
      {rows.map(({ href, name, aside }) => (
        <li key={href}>
          <Link aria-current={href === chosen ? 'true' : undefined} href={href}>
            <span>{name}</span> <span className="quiet small">{aside}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
