import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { dayAndTime } from '../parts/figures.ts';
import { SaveLine } from '../parts/saveLine.tsx';
import { runHref } from '../routes.ts';
import { BeforeRecording } from '../runForm/beforeRecording.tsx';
import { Judged } from '../runForm/judged.tsx';
import { LookInto } from '../runForm/lookInto.tsx';
import { buildStillOpen } from './buildStillOpen.ts';
import type { Guide } from './useGuide.ts';

/** The verdict while nothing is written, what still keeps it from being recorded, and the recorded one. */
export function GuideVerdict({ guide }: { guide: Guide }) {
  return guide.recorded === undefined ? <LiveVerdict guide={guide} /> : <RecordedVerdict guide={guide} />;
}

function LiveVerdict({ guide }: { guide: Guide }) {
  const { bench, goBack } = guide;
  const { reading, assessment, saving, asking } = bench;
  return (
    <>
      {assessment && reading.run ? (
        <section aria-label="Verdict before it is recorded" className="stack verdict">
          <p className="quiet">Not recorded yet</p>
          <Judged assessment={assessment} run={reading.run} />
        </section>
      ) : null}
      <StillOpen guide={guide} />
      {asking.length > 0 ? (
        <BeforeRecording bench={bench} />
      ) : (
        <div className="group">
          <SaveLine
            action="Record run"
            saving={saving}
            trouble={
              <button onClick={goBack} type="button">
                Back
              </button>
            }
          />
        </div>
      )}
    </>
  );
}

function StillOpen({ guide }: { guide: Guide }) {
  const open = buildStillOpen(guide.bench.reading);
  if (open.length === 0) return null;
  return (
    <section aria-label="Still to come" className="stack">
      <p>{guide.bench.assessment ? 'Before it can be recorded:' : 'No verdict yet. Still to come:'}</p>
      <ul className="plain-list">
        {open.map(({ field, what, step }) => (
          <li key={field}>
            {what}{' '}
            {step === null ? (
              <Link href="/bench">See the bench form</Link>
            ) : (
              <button data-weight="line" onClick={() => guide.goTo(step.id)} type="button">
                Back to step {step.number}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function RecordedVerdict({ guide }: { guide: Guide }) {
  const { logbook, assessments } = useLogbook();
  const { recorded, beginAnew } = guide;
  const saved = useRef<HTMLParagraphElement>(null);
  // The button that was pressed is gone, and the focus would be with it.
  useEffect(() => saved.current?.focus(), []);
  const assessment = recorded && assessments.get(recorded.id);
  if (!recorded || !assessment) return null;
  const writer = logbook.technologists.get(recorded.entry.by);
  return (
    <section aria-label="Recorded verdict" className="stack verdict">
      <p className="focus-stop" ref={saved} role="status" tabIndex={-1}>
        <strong>Saved.</strong>{' '}
        <bdi>{logbook.analyzers.get(recorded.body.analyzerId)?.description.label}</bdi>, run of{' '}
        {dayAndTime(recorded.body.madeAt)}, recorded by <bdi>{writer?.initials ?? 'an unknown person'}</bdi>.
      </p>
      <Judged assessment={assessment} run={recorded.body} runId={recorded.id} />
      {assessment.verdict.word === 'fail' ? <LookInto runId={recorded.id} /> : null}
      <div className="group line">
        <button data-weight="main" onClick={beginAnew} type="button">
          Guide another run
        </button>
        <Link href={runHref(recorded.id)}>See this run</Link>
        <Link href="/bench">To the bench</Link>
      </div>
    </section>
  );
}
