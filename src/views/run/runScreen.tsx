import { useState } from 'react';
import { Link, useParams } from 'wouter';
import type { LoggedRun } from '../../journal/logbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { SavedMessage } from '../parts/savedMessage.tsx';
import { Spread } from '../parts/spread.tsx';
import { AmendForm } from './amendForm.tsx';
import { AmendPreview } from './amendPreview.tsx';
import { RunAsItStands } from './runAsItStands.tsx';
import { RunStory } from './runStory.tsx';
import { useAmendment } from './useAmendment.ts';

/** One run: as it stands on the left page, how it was judged and how it came to be so on the right. */
export default function RunScreen() {
  const { logbook } = useLogbook();
  const { runId = '' } = useParams();
  const run = logbook.runs.find(({ id }) => id === runId);
  return run ? <OneRun key={runId} run={run} /> : <NoSuchRun />;
}

function NoSuchRun() {
  return (
    <Spread
      left={
        <Notice title="This address names no run of the logbook." tone="quiet">
          <p>
            Each date in the tables leads to its run: <Link href="/charts">go to the charts</Link>.
          </p>
        </Notice>
      }
      right={null}
    />
  );
}

function OneRun({ run }: { run: LoggedRun }) {
  const [isAmending, setAmending] = useState(false);
  const [saved, setSaved] = useState('');
  const [wasLeft, setLeft] = useState(false);
  if (isAmending) {
    return (
      <Amending
        onClose={() => {
          setAmending(false);
          setLeft(true);
        }}
        onSaved={() => {
          setAmending(false);
          setSaved('Saved: the run is amended. What it said before stays below, struck through.');
        }}
        run={run}
      />
    );
  }
  return (
    <Spread
      left={
        <div className="stack">
          <SavedMessage text={saved} />
          <RunAsItStands
            onAmend={() => {
              setSaved('');
              setLeft(false);
              setAmending(true);
            }}
            onVoided={() => setSaved('Saved: the run is voided. It stays visible, struck through.')}
            run={run}
            takesFocus={wasLeft}
          />
        </div>
      }
      right={<RunStory run={run} />}
    />
  );
}

function Amending({ run, onSaved, onClose }: { run: LoggedRun; onSaved: () => void; onClose: () => void }) {
  const amendment = useAmendment(run, onSaved);
  return (
    <Spread
      left={<AmendForm amendment={amendment} onClose={onClose} run={run} />}
      right={<AmendPreview amendment={amendment} run={run} />}
    />
  );
}
