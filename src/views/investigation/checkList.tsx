import { Link } from 'wouter';
import type { LoggedControl } from '../../journal/logbook.ts';
import { initialsIn } from '../amendments.ts';
import { judgedAsWritten } from '../controlAsWritten.ts';
import { controlHref } from '../deskRoutes.ts';
import { nextChecks, type OfferedCheck, type WeighedInquiry } from '../investigationChecks.ts';
import { isVoided, type Step } from '../investigations.ts';
import { useLogbook } from '../logbookContext.tsx';
import { BeginChecks } from '../parts/beginChecks.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { RunLink, RunVerdict, TechnologistOf } from '../parts/runInTable.tsx';
import { Struck } from '../parts/struck.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';

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
        Each run, check and control that is begun here is linked to this page. Test gas holds carbon monoxide
        and comes from a compressed-gas cylinder: ventilate, secure it, follow your local rules.
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
        <Done key={idOf(step)} step={step} />
      ))}
      {isOver ? null : <BeginChecks begins={begins} isMain={isNext && begins.length === 1} />}
    </li>
  );
}

const idOf = (step: Step) =>
  step.kind === 'run' ? step.run.id : step.kind === 'check' ? step.noted.id : step.control.id;

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
  if (step.kind === 'control') return <DoneControl logged={step.control} />;
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

function DoneControl({ logged }: { logged: LoggedControl }) {
  const { logbook } = useLogbook();
  const { id, entry, control, voided } = logged;
  const { word, establishing } = judgedAsWritten(logged);
  const label = logbook.analyzers.get(control.analyzerId)?.description.label;
  const who =
    control.kind === 'biological'
      ? `subject ${logbook.subjects.get(control.subjectId)?.description.code ?? 'unknown'}`
      : 'simulator';
  return (
    <p className="line line--baseline">
      {voided === null ? <VerdictBadge establishing={establishing} word={word} /> : 'Voided'}
      <span>
        <Struck isStruck={voided !== null}>
          {label}, {who}, <Link href={controlHref(id)}>{dayAndTime(control.madeAt, entry.zone)}</Link>,{' '}
          {initialsIn(logbook.technologists, control.technologistId)}
        </Struck>
      </span>
    </p>
  );
}
