import { useState } from 'react';
import { canPickFolder, pickFolder } from '../../store/copyFolder.ts';
import { messageOf } from '../../store/messageOf.ts';
import type { SecondCopySnapshot } from '../../store/secondCopy.ts';
import { uncopiedRows } from '../buildSecondCopyLine.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { counted, dayAndTime } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { useSecondCopy, useSecondCopyParts } from '../secondCopy.tsx';

/** A copy that writes itself after each save, where the browser lets a page write into a folder. */
export function StandingCopy() {
  const { snapshot } = useLogbook();
  const { copy, state } = useSecondCopy();
  const [problem, setProblem] = useState<string | null>(null);
  if (useSecondCopyParts() === 'missing') {
    return (
      <Notice title="The copy that writes itself could not be started." tone="fail">
        <p>
          The part of the program that writes it did not arrive, so nothing is copied. Runs are recorded as
          usual. Reload the page.
        </p>
      </Notice>
    );
  }
  if (copy === null || !state.isKnown) return null;
  if (!canPickFolder() && state.chosen === null) {
    return (
      <p className="quiet">
        This browser does not let a page write into a folder, so nothing is copied by itself. The line at the
        top counts the entries since the last backup file.
      </p>
    );
  }

  const trying = (work: () => Promise<unknown>) => () => {
    setProblem(null);
    work().catch((error: unknown) => setProblem(messageOf(error)));
  };
  const choose = trying(async () => {
    const folder = await pickFolder();
    if (folder) await copy.keepIn(folder);
  });
  const uncopied = uncopiedRows(state, snapshot.rawRows);
  return (
    <div className="stack">
      <h3>A copy that writes itself</h3>
      {state.chosen === null ? (
        <p>
          Pick a folder once, on the network if there is one: after each save the whole logbook is written
          into a file there.
        </p>
      ) : (
        <FigureList
          rows={[
            { name: 'Folder', value: state.chosen.folder || 'The folder picked' },
            { name: 'File', value: state.chosen.fileName },
            { name: 'Last written', value: state.written ? dayAndTime(state.written.at) : 'Not yet' },
            { name: 'Not yet in it', value: counted(uncopied, 'entry', 'entries') },
          ]}
        />
      )}
      <CopyTrouble phase={state.phase} />
      {problem === null ? null : (
        <Notice title="The folder could not be used." tone="fail" urgent>
          <p>{problem}</p>
        </Notice>
      )}
      <div className="line">
        {state.phase.name === 'permission' ? (
          <button data-weight="main" onClick={trying(() => copy.askAgain())} type="button">
            Allow again
          </button>
        ) : null}
        {state.phase.name === 'failed' ? (
          <button onClick={() => copy.writeNow()} type="button">
            Try again
          </button>
        ) : null}
        <button onClick={choose} type="button">
          {state.chosen === null ? 'Pick a folder…' : 'Pick another folder…'}
        </button>
        {state.chosen === null ? null : (
          <button onClick={trying(() => copy.stopKeeping())} type="button">
            Write it no more
          </button>
        )}
      </div>
    </div>
  );
}

function CopyTrouble({ phase }: { phase: SecondCopySnapshot['phase'] }) {
  switch (phase.name) {
    case 'idle':
    case 'writing':
      return null;
    case 'permission':
      return (
        <Notice title="The browser asks again before it writes there." tone="warn">
          <p>Until it is allowed, nothing is copied. Saving goes on as usual.</p>
        </Notice>
      );
    case 'failed':
      return phase.reason === 'holds-more' ? (
        <Notice title="The file in the folder holds entries that are not in this logbook." tone="fail">
          <p>
            It is not written over. Merge it below, then try again: another browser writes there too, or this
            logbook has lost entries.
          </p>
        </Notice>
      ) : (
        <Notice title="The second copy could not be written." tone="fail">
          <p>
            {phase.message} The copy before it is still whole. It is tried again every minute and with each
            save.
          </p>
        </Notice>
      );
  }
}
