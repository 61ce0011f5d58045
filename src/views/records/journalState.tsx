import { useState } from 'react';
import { type ChainReport, checkChains } from '../../journal/chain.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';

/** What is in the journal, and whether its chains hold. */
export function JournalState() {
  const { logbook, snapshot, impossible } = useLogbook();
  const [report, setReport] = useState<ChainReport | null>(null);
  const [checking, setChecking] = useState(false);

  const check = async () => {
    setChecking(true);
    setReport(await checkChains(snapshot.rawRows));
    setChecking(false);
  };

  return (
    <div className="stack stack--loose">
      <section className="stack">
        <h2>In the journal</h2>
        <FigureList
          rows={[
            { name: 'Entries', value: logbook.entryCount },
            { name: 'Runs', value: logbook.runs.length },
            { name: 'Analyzers', value: logbook.analyzers.size },
            { name: 'Newest entry', value: logbook.newestAt ? dayAndTime(logbook.newestAt) : '–' },
          ]}
        />
        {snapshot.damaged.map(({ key, problem }) => (
          <p className="small" key={key}>
            Stored entry {key} cannot be read: {problem}
          </p>
        ))}
        {impossible.map(({ runId, problem }) => (
          <p className="small" key={runId}>
            A run cannot be computed and is left out of every mean: {problem}
          </p>
        ))}
        {logbook.problems.map(({ entryId, sentence }) => (
          <p className="small" key={`${entryId} ${sentence}`}>
            {sentence} <span className="hash quiet">Entry {entryId}</span>
          </p>
        ))}
      </section>
      <section className="stack group">
        <h2>Does the chain hold?</h2>
        <p>
          Each entry carries the hash of its own content and of the entry before it. A change made outside
          this program breaks the chain at that entry. Whoever controls this browser’s profile could rebuild a
          chain that was never exported: keep exports elsewhere.
        </p>
        <div className="line">
          <button disabled={checking} onClick={() => void check()} type="button">
            {checking ? 'Checking…' : 'Check every entry'}
          </button>
        </div>
        {report ? <Report report={report} /> : null}
      </section>
    </div>
  );
}

function Report({ report: { workstations, breaks } }: { report: ChainReport }) {
  return (
    <>
      {breaks.length === 0 ? (
        <Notice title="Every entry fits its hash and the entry before it." tone="pass" />
      ) : (
        <Notice title={`${counted(breaks.length, 'break')} in the chain`} tone="fail" urgent>
          <ul className="plain-list">
            {breaks.map(({ row, kind, sentence }) => (
              <li key={`${row} ${kind}`}>{sentence}</li>
            ))}
          </ul>
        </Notice>
      )}
      {workstations.map(({ workstation, count, headSeq, headHash }) => (
        <FigureList
          key={workstation}
          rows={[
            { name: 'Workstation', value: <span className="hash">{workstation}</span> },
            { name: 'Entries', value: `${count}, the last is number ${headSeq}` },
            { name: 'Head hash', value: <span className="hash">{headHash}</span> },
          ]}
        />
      ))}
    </>
  );
}
