import { initialsIn } from '../amendments.ts';
import { nextChecks, type OfferedCheck, type WeighedInquiry } from '../investigationChecks.ts';
import { isVoided, type Step } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { BeginChecks } from '../parts/beginChecks.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { Struck } from '../parts/struck.tsx';

/** The right page: every check that makes sense here, what would tell most first, each with what it found and how to begin it. */
export function CheckList({ weighed, isOver }: { weighed: WeighedInquiry; isOver: boolean }) {
  const next = isOver ? [] : nextChecks(weighed);
  return (
    <section aria-label="Checks" className="stack stack--loose">
      <h2>Checks</h2>
      {isOver ? <p className="quiet">The matter is over: no check is offered any more.</p> : null}
      <ol className="inquiry-checks">
        {weighed.checks.map((check) => (
          <Check
            check={check}
            isNext={check === next[0] && weighed.off !== null}
            isOver={isOver}
            key={check.check}
          />
        ))}
      </ol>
      <p className="quiet small">
        Each run and check that is begun here is linked to this page. Test gas holds carbon monoxide and comes
        from a compressed-gas cylinder: ventilate, secure it, follow your local rules.
      </p>
    </section>
  );
}

function Check({
  check: { title, why, done, state, begins },
  isNext,
  isOver,
}: {
  check: OfferedCheck;
  isNext: boolean;
  isOver: boolean;
}) {
  if (isOver && done.length === 0) return null;
  return (
    <li className="stack" data-next={isNext ? 'true' : undefined}>
      <h3 className="line line--baseline">
        {title} <span className="quiet small">{isNext ? 'next' : stateWords[state]}</span>
      </h3>
      <p className="quiet">{why}</p>
      {done.map((step) => (
        <Done key={step.kind === 'run' ? step.run.id : step.noted.id} step={step} />
      ))}
      {isOver ? null : <BeginChecks begins={begins} isMain={isNext && begins.length === 1} />}
    </li>
  );
}

const stateWords: Record<OfferedCheck['state'], string> = {
  done: 'done',
  known: 'known, see what was found',
  'not-done': 'not done',
};

const outcomeWords = { passed: 'Passed', failed: 'Failed', noted: 'Noted' } as const;

function Done({ step }: { step: Step }) {
  const { logbook, assessments } = useLogbook();
  const { technologists, analyzers } = logbook;
  if (step.kind === 'run') {
    const { run } = step;
    return (
      <p className="line line--baseline">
        <RunVerdict assessments={assessments} run={run} />
        <span>
          {analyzers.get(run.body.analyzerId)?.description.label},{' '}
          <RunLink run={run} technologists={technologists} />,{' '}
          <TechnologistOf run={run} technologists={technologists} />
        </span>
      </p>
    );
  }
  const { body, zone } = step.noted.entry;
  return (
    <p>
      <Struck isStruck={isVoided(step)}>
        <strong>{outcomeWords[body.outcome]}</strong>, {dayAndTime(body.doneAt, zone)},{' '}
        {initialsIn(technologists, body.technologistId)}
        {body.note === '' ? '' : `: ${body.note}`}
      </Struck>
    </p>
  );
}
