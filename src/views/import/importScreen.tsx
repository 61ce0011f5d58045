import { useMemo } from 'react';
import { publishedLimits2017 } from '../../core/index.ts';
import { type KnownLogbook, knownFrom } from '../../exchange/importKnown.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import { useNow } from '../parts/useNow.ts';
import { ImportBatches } from './importBatches.tsx';
import { ImportDone, WhatImportOpened } from './importDone.tsx';
import { ImportHelp } from './importHelp.tsx';
import { JudgedRows } from './judgedRows.tsx';
import { MapColumns } from './mapColumns.tsx';
import { PickFile } from './pickFile.tsx';
import { PreviewRows } from './previewRows.tsx';
import { RecordImport } from './recordImport.tsx';
import { type ImportControls, useImport } from './useImport.ts';
import { Waiting } from './waiting.tsx';
import './import.css';

interface PageProps {
  controls: ImportControls;
  known: KnownLogbook;
}

/** Years of history from a spreadsheet's CSV: pick, map, judge, and only then write. */
export default function ImportScreen() {
  const controls = useImport();
  const known = useKnown();
  const { importing } = controls;
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <h1>Import runs</h1>
          <Left controls={controls} known={known} />
        </div>
      }
      right={<Right controls={controls} known={known} />}
      wide={importing.step === 'judged' ? 'right' : 'even'}
    />
  );
}

/** What the rows are judged against, as the logbook stands. Of a long history it is gathered once, not at every tick. */
function useKnown(): KnownLogbook {
  const { logbook } = useLogbook();
  const now = useNow();
  const gathered = useMemo(
    () =>
      knownFrom(logbook, {
        now: 0,
        zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
        limits: publishedLimits2017,
      }),
    [logbook],
  );
  return useMemo(() => ({ ...gathered, now }), [gathered, now]);
}

function Left({ controls, known }: PageProps) {
  const { importing } = controls;
  switch (importing.step) {
    case 'pick':
      return (
        <>
          <PickFile onPick={controls.pick} />
          {importing.trouble ? (
            <Notice title={`Nothing was taken from ${importing.trouble.fileName}.`} tone="fail" urgent>
              <p>{importing.trouble.sentence}</p>
            </Notice>
          ) : null}
          <ImportBatches />
        </>
      );
    case 'reading':
      return (
        <Waiting
          onLeave={controls.leave}
          progress={importing.progress}
          what={`Reading ${importing.fileName}`}
        />
      );
    case 'mapping':
      return (
        <MapColumns
          known={known}
          mapping={importing.mapping}
          onChange={controls.map}
          onJudge={() => void controls.judge(importing.mapping, known)}
          onLeave={controls.leave}
          onPartBy={controls.partBy}
          trouble={importing.trouble}
        />
      );
    case 'judging':
      return (
        <Waiting
          onLeave={controls.leave}
          progress={importing.progress}
          what={`Judging ${importing.mapping.file.fileName}`}
        />
      );
    case 'judged':
      return (
        <RecordImport
          judged={importing.judged}
          mapping={importing.mapping}
          onBack={() => controls.map(importing.mapping)}
          onLeave={controls.leave}
          onRecorded={(batchId) =>
            controls.finish({
              fileName: importing.mapping.file.fileName,
              batchId,
              judged: importing.judged,
            })
          }
        />
      );
    case 'done':
      return (
        <>
          <ImportDone
            batchId={importing.batchId}
            fileName={importing.fileName}
            judged={importing.judged}
            onNext={controls.leave}
          />
          <ImportBatches />
        </>
      );
  }
}

function Right({ controls: { importing }, known }: PageProps) {
  switch (importing.step) {
    case 'pick':
    case 'reading':
      return <ImportHelp />;
    case 'mapping':
    case 'judging':
      return <PreviewRows known={known} mapping={importing.mapping} />;
    case 'judged':
      return <JudgedRows rows={importing.judged.judgement.rows} counts={importing.judged.judgement.counts} />;
    case 'done':
      return <WhatImportOpened batchId={importing.batchId} />;
  }
}
