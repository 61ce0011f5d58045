import { useMemo, useState } from 'react';
import { Link, useParams } from 'wouter';
import type { ControlPolicy } from '../../core/index.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { noticeHref } from '../deskRoutes.ts';
import { policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Spread } from '../parts/spread.tsx';
import { useChosenInSight } from '../parts/useChosenInSight.ts';
import { useNow } from '../parts/useNow.ts';
import { Answers } from './answers.tsx';
import './notice.css';
import { TermLine } from '../parts/term.tsx';
import { Moved } from './moved.tsx';
import type { Counting } from './questions.ts';
import { useNotice } from './useNotice.ts';
import { readWhatIf, whatIfOf } from './whatIf.ts';
import { WhatIfRules } from './whatIfRules.tsx';

export default function NoticeScreen() {
  const { logbook } = useLogbook();
  const { analyzerId = '' } = useParams();
  const rightPage = useChosenInSight(analyzerId);
  const now = useNow(logbook);
  const analyzer = logbook.analyzers.get(analyzerId);
  if (analyzer === undefined) {
    return (
      <Spread
        left={<Heading chosen={analyzerId} />}
        right={<p>This address names no analyzer of the logbook. Choose one from the list.</p>}
      />
    );
  }
  return <OfAnalyzer analyzer={analyzer} key={analyzerId} now={now} rightPage={rightPage} />;
}

function OfAnalyzer({
  analyzer,
  now,
  rightPage,
}: {
  analyzer: Analyzer;
  now: number;
  rightPage: ReturnType<typeof useChosenInSight>;
}) {
  const { logbook } = useLogbook();
  const inForce = policyInForce(logbook, { analyzerId: analyzer.id, madeAt: new Date(now).toISOString() });
  const [counting, setCounting] = useState<Counting>('signal');
  const [draft, setDraft] = useDraftOf(inForce);
  const reading = useMemo(() => readWhatIf(draft, inForce), [draft, inForce]);
  const answers = useNotice(analyzer.id, { inForce, whatIf: reading.policy, counting, now });
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <Heading chosen={analyzer.id} />
          <WhatIfRules
            analyzerId={analyzer.id}
            counting={counting}
            draft={draft}
            inForce={inForce}
            onCounting={setCounting}
            onDraft={setDraft}
            reading={reading}
          />
          <Moved answers={answers} isTried={reading.policy !== null} />
        </div>
      }
      right={
        <div ref={rightPage}>
          <Answers answers={answers} counting={counting} label={analyzer.description.label} />
        </div>
      }
    />
  );
}

/** Begins anew when another policy comes into force under it: what was tried was tried against the former. */
function useDraftOf(inForce: ControlPolicy) {
  const [kept, setKept] = useState(() => ({ inForce, draft: whatIfOf(inForce) }));
  const current = kept.inForce === inForce ? kept : { inForce, draft: whatIfOf(inForce) };
  const setDraft = (draft: typeof kept.draft) => setKept({ inForce, draft });
  return [current.draft, setDraft] as const;
}

function Heading({ chosen }: { chosen: string }) {
  const { logbook } = useLogbook();
  const analyzers = [...logbook.analyzers.values()].filter(
    ({ id, retired }) => retired === null || id === chosen,
  );
  return (
    <div className="stack">
      <h1>What would we notice?</h1>
      <TermLine ids={['run-length', 'own-limits', 'published-limit']} />
      <nav aria-label="Analyzers">
        <ul className="choose-list">
          {analyzers.map(({ id, description, retired }) => (
            <li key={id}>
              <Link aria-current={id === chosen ? 'true' : undefined} href={noticeHref(id)}>
                {description.label}
                {retired === null ? null : <span className="small quiet">retired</span>}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
    </div>
  );
}
