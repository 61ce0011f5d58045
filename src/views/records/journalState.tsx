import type { ChainReport } from '../../journal/chain.ts';
import type { EntryOf } from '../../journal/entries.ts';
import { type ChainCheck, useChainCheck } from '../chainCheck.tsx';
import { useLogbook } from '../logbookContext.tsx';
import { ChainEnds } from '../parts/chainEnds.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime, timeOfDay } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { SignatureState } from './signatureState.tsx';
import { StorageState } from './storageState.tsx';

/** What is in the journal, and whether its chains hold. */
export function JournalState() {
  const { logbook, snapshot, impossible } = useLogbook();
  const { check, start } = useChainCheck();
  const losses = snapshot.entries.filter((entry) => entry.kind === 'entries-lost');

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
        {losses.map((loss) => (
          <Loss key={loss.id} loss={loss} />
        ))}
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
          this program breaks the chain at that entry, and a head hash on an earlier export or print that no
          longer fits shows that entries were changed or cut off since.
        </p>
        <p>
          It does not show who changed it, nor does it prevent a change. Whoever controls this browser’s
          profile could rebuild a chain that was never exported or printed: keep exports elsewhere.
        </p>
        <div className="line">
          <button disabled={check.state === 'checking'} onClick={start} type="button">
            {check.state === 'checking' ? 'Checking…' : 'Check every entry'}
          </button>
          <span className="quiet">{progressWords(check)}</span>
        </div>
        {check.state === 'done' ? <Report report={check.report} /> : null}
      </section>
      <SignatureState />
      <StorageState />
    </div>
  );
}

function progressWords(check: ChainCheck): string {
  switch (check.state) {
    case 'waiting':
      return 'It is checked by itself soon after the logbook is opened.';
    case 'checking':
      return check.total === 0 ? '' : `${check.checked} of ${check.total} entries`;
    case 'done':
      return `Checked at ${timeOfDay(check.checkedAt)}.`;
    case 'failed':
      return `It could not be checked: ${check.problem}`;
  }
}

/** That entries were lost stays told for as long as there is a journal. */
function Loss({ loss: { at, body } }: { loss: EntryOf<'entries-lost'> }) {
  const { known, found, initials } = body;
  return (
    <Notice
      title={`${counted(known.count - found, 'entry was', 'entries were')} lost from this browser before ${dayAndTime(at)}.`}
      tone="warn"
    >
      <p>
        {initials} went on without them. There had been {known.count}, the last on {dayAndTime(known.at)} with
        the hash <span className="hash">{known.hash}</span>.
      </p>
    </Notice>
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
      <ChainEnds chains={workstations} />
    </>
  );
}
