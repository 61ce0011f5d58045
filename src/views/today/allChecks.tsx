import { Fragment } from 'react';
import { Link } from 'wouter';
import { usualPlans } from '../../core/index.ts';
import BuiltInOnlyNotice from '../builtInOnlyNotice.tsx';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { ofTheLaboratory, schedulePath } from '../routes.ts';
import { checksNotMade, planOf } from '../schedule.ts';
import { checkWords, intervalWords } from '../scheduleWords.ts';
import type { TodayLine, TodayPage } from './buildToday.ts';
import { CheckList } from './checkList.tsx';
import { useFocusOnOpening } from './useFocusOnOpening.ts';

/** The right page: every check of one analyzer and of what the laboratory shares, and where the dates come from. */
export function AllChecks({
  page,
  about,
  shown,
  voiding,
  onVoiding,
}: {
  page: TodayPage;
  /** What the address asks for: an analyzer's id, `ofTheLaboratory`, or nothing. */
  about: string;
  /** The analyzer that was asked for, or is in hand. */
  shown: TodayLine | undefined;
  voiding: string | null;
  onVoiding: (checkId: string | null) => void;
}) {
  const heading = useFocusOnOpening<HTMLHeadingElement>(shown !== undefined && about === shown.analyzerId);
  const ofLaboratory = useFocusOnOpening<HTMLHeadingElement>(about === ofTheLaboratory);
  const { today } = page;
  const changeVoiding = (checkId: string | null) => {
    onVoiding(checkId);
    // The form that had the focus goes: reading goes on at the head of the page.
    if (checkId === null) heading.current?.focus();
  };
  return (
    <div className="stack stack--loose">
      {shown ? (
        <section className="stack">
          <h2 className="focus-stop" ref={heading} tabIndex={-1}>
            <bdi>{shown.name}</bdi>, every check
          </h2>
          <BuiltInOnlyNotice analyzerId={shown.analyzerId} />
          <CheckList
            lines={page.ofAnalyzer(shown.analyzerId)}
            namesThing={false}
            onVoiding={changeVoiding}
            today={today}
            voiding={voiding}
          />
        </section>
      ) : null}
      <section className="stack">
        <h2 className="focus-stop" ref={ofLaboratory} tabIndex={-1}>
          The laboratory
        </h2>
        {page.ofTheLaboratory.length === 0 ? (
          <p className="quiet">Syringes, cylinders and the barometer stand here with their dates.</p>
        ) : (
          <CheckList
            lines={page.ofTheLaboratory}
            namesThing
            onVoiding={changeVoiding}
            today={today}
            voiding={voiding}
          />
        )}
      </section>
      <WhereFrom page={page} />
    </div>
  );
}

/** Where each date comes from: the laboratory's own schedule, or the usual one with its source. */
function WhereFrom({ page: { neverNoted } }: { page: TodayPage }) {
  const { logbook } = useLogbook();
  const notMade = checksNotMade(logbook);
  const rows = usualPlans.flatMap(({ kind }) => {
    const planned = planOf(logbook, kind);
    if (planned === null) return [];
    const { plan, isUsual } = planned;
    const source = isUsual
      ? `Usual. ${plan.source}`
      : `${intervalWords(plan.every)}, set here: ${plan.source}`;
    return [
      {
        name: checkWords[kind],
        value: (
          <>
            {source}{' '}
            <Link href={schedulePath(kind)}>
              Set<span className="for-readers"> how often: {checkWords[kind]}</span>
            </Link>
          </>
        ),
      },
    ];
  });
  return (
    <section className="stack group small">
      {neverNoted.length > 0 ? (
        <p className="quiet">
          Never noted here: {neverNoted.map(({ check }) => checkWords[check].toLowerCase()).join(', ')}. Each
          falls due after the first that is noted.
        </p>
      ) : null}
      {notMade.length > 0 ? (
        <p className="quiet">
          Not made here:{' '}
          {notMade.map((check, index) => (
            <Fragment key={check}>
              {index === 0 ? null : ', '}
              <Link href={schedulePath(check)}>{checkWords[check].toLowerCase()}</Link>
            </Fragment>
          ))}{' '}
          (set under Laboratory).
        </p>
      ) : null}
      <details>
        <summary>How often, where that comes from, and where it is set</summary>
        <FigureList rows={rows} />
      </details>
    </section>
  );
}
