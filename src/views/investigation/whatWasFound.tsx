import { Link } from 'wouter';
import { controlHref } from '../deskRoutes.ts';
import type { WeighedInquiry } from '../investigationChecks.ts';
import { policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { RunLink, RunVerdict } from '../parts/runInTable.tsx';
import { routeWords } from '../parts/words.ts';
import { buildVerdictPage } from '../runForm/buildVerdictPage.ts';
import type { CauseLine, InvestigationPage } from './buildInvestigation.ts';

/** The left page: the run, how the matter stands, everything known, and what it supports. */
export function WhatWasFound({ weighed, page }: { weighed: WeighedInquiry; page: InvestigationPage }) {
  const { logbook, assessments } = useLogbook();
  const { about } = weighed.inquiry;
  const { technologists, analyzers } = logbook;
  const label = analyzers.get(about.body.analyzerId)?.description.label ?? 'an unknown analyzer';
  const assessment = assessments.get(about.id);
  const { standing } = page;
  return (
    <article className="stack stack--loose">
      <header className="stack">
        <h1>Investigation: {label}</h1>
        <p className="line line--baseline">
          <span>
            {routeWords[about.body.route]}, run of <RunLink run={about} technologists={technologists} />
          </span>
          <RunVerdict assessments={assessments} run={about} />
        </p>
      </header>
      {standing ? (
        <Notice title={standing.title} tone={standing.tone}>
          <p>{standing.sentence}</p>
        </Notice>
      ) : null}
      <section aria-label="What was found" className="stack">
        <h2>What was found</h2>
        {assessment ? (
          buildVerdictPage(about.body, assessment, policyInForce(logbook, about.body)).found.map(
            (sentence) => <p key={sentence}>{sentence}</p>,
          )
        ) : (
          <p className="quiet">The run’s numbers cannot be: see Records.</p>
        )}
        <ul className="found-list">
          {weighed.facts.map(({ key, sentence, runs, control }) => (
            <li key={key}>
              {sentence}{' '}
              {runs.map((run) => (
                <span className="small" key={run.id}>
                  <RunLink run={run} technologists={technologists} />{' '}
                </span>
              ))}
              {control === undefined ? null : (
                <Link className="small" href={controlHref(control.id)}>
                  See it
                </Link>
              )}
            </li>
          ))}
        </ul>
      </section>
      <section aria-label="What it points to" className="stack group">
        <h2>What it points to</h2>
        {page.causes.length === 0 ? <p className="quiet">{page.noCause}</p> : null}
        <ol className="cause-list">
          {page.causes.map((cause) => (
            <Cause cause={cause} key={cause.id} />
          ))}
        </ol>
        <p className="quiet small">
          The order is what the evidence supports, by rules that are this logbook’s own: nobody here knows the
          cause before it is found and repaired.
        </p>
      </section>
    </article>
  );
}

function Cause({ cause: { text, weight, for: pro, against } }: { cause: CauseLine }) {
  return (
    <li>
      <p>{text}</p>
      <p className="small">
        {weight}. <span className="quiet">For:</span> {pro.join('; ')}.
        {against.length > 0 ? (
          <>
            {' '}
            <span className="quiet">Against:</span> {against.join('; ')}.
          </>
        ) : null}
      </p>
    </li>
  );
}
