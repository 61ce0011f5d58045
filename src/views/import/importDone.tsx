import { useMemo } from 'react';
import { Link } from 'wouter';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { CloseTogether } from '../parts/closeTogether.tsx';
import { counted, day } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { useFailures } from '../useFailures.ts';
import type { JudgedFile } from './importFile.ts';
import { SaveRefused } from './saveRefused.tsx';

/** What was written, and where it can be seen. */
export function ImportDone({
  fileName,
  batchId,
  judged,
  onNext,
}: {
  fileName: string;
  batchId: string;
  judged: JudgedFile;
  onNext: () => void;
}) {
  const { logbook } = useLogbook();
  const { counts } = judged.judgement;
  const accepted = logbook.imports.get(batchId)?.entry.body.accepted ?? 0;
  const runs = logbook.runs.filter(
    ({ body }) => body.origin.kind === 'import' && body.origin.batchId === batchId,
  );
  const [first] = runs;
  const last = runs.at(-1);
  return (
    <section className="stack">
      <Notice
        title={`Recorded. ${counted(accepted, 'run')} of ${fileName} stand in the logbook.`}
        tone="pass"
      >
        {first && last ? (
          <p>
            From {day(first.body.madeAt)} to {day(last.body.madeAt)}. {sentenceOf(counts)}
          </p>
        ) : null}
      </Notice>
      <p>
        <Link href="/charts">See them in the charts</Link>
      </p>
      <SaveRefused fileName={fileName} judged={judged} />
      <div>
        <button onClick={onNext} type="button">
          Import another file
        </button>
      </div>
    </section>
  );
}

function sentenceOf({ refused, there }: JudgedFile['judgement']['counts']): string {
  const parts = [
    ...(refused > 0 ? [`${counted(refused, 'row was', 'rows were')} refused`] : []),
    ...(there > 0 ? [`${counted(there, 'row was', 'rows were')} there already`] : []),
  ];
  return parts.length > 0 ? `${parts.join(', ')}.` : 'No row was refused.';
}

/** Failures that history brought along are old stories: they can be closed together. */
export function WhatImportOpened({ batchId }: { batchId: string }) {
  const failures = useFailures();
  const opened = useMemo(
    () =>
      openFailures(failures).filter(({ openedBy }) => {
        const { origin } = openedBy.body;
        return origin.kind === 'import' && origin.batchId === batchId;
      }),
    [failures, batchId],
  );
  return (
    <section className="stack">
      <h2>Failures in what was imported</h2>
      {opened.length === 0 ? (
        <p className="quiet">None is open.</p>
      ) : (
        <CloseTogether failures={opened} key={opened.map(({ openedBy }) => openedBy.id).join(' ')} />
      )}
    </section>
  );
}
