import { type RefObject, useState } from 'react';
import { chainHeads } from '../../journal/chain.ts';
import { laboratoryOf } from '../../journal/standing.ts';
import { messageOf } from '../../store/messageOf.ts';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { chartFileName, saveFile } from '../parts/saveFile.ts';
import { chartSheet } from './chartSheet.ts';
import { sheetAsPng } from './drawSheet.ts';
import { readDrawing } from './readDrawing.ts';
import { sheetAsSvg } from './sheetAsSvg.ts';
import { type SheetSource, sheetWords } from './sheetWords.ts';

/** The chart as it stands, with its words, as a file that says by itself what it is. */
export function SaveChart({
  drawing,
  source,
}: {
  drawing: RefObject<HTMLElement | null>;
  source: Omit<SheetSource, 'laboratory' | 'demonstration' | 'heads' | 'now'>;
}) {
  const { logbook, snapshot, demonstration } = useLogbook();
  const [outcome, setOutcome] = useState<{ fileName: string } | { failed: string } | null>(null);
  const save = async (kind: 'svg' | 'png') => {
    const { current } = drawing;
    if (current === null) return;
    try {
      const now = Date.now();
      const words = sheetWords({
        ...source,
        laboratory: laboratoryOf(logbook).name,
        demonstration,
        heads: chainHeads(snapshot.rawRows),
        now,
      });
      const sheet = chartSheet(readDrawing(current), words);
      const fileName = chartFileName(source.heading, now, kind);
      if (kind === 'svg') saveFile(sheetAsSvg(sheet), fileName, 'image/svg+xml');
      else saveFile(await sheetAsPng(sheet), fileName, 'image/png');
      setOutcome({ fileName });
    } catch (error) {
      setOutcome({ failed: messageOf(error) });
    }
  };
  return (
    <div className="stack">
      <div className="line">
        <button onClick={() => void save('svg')} type="button">
          Save as SVG
        </button>
        <button onClick={() => void save('png')} type="button">
          Save as PNG
        </button>
        {outcome !== null && 'fileName' in outcome ? (
          <span className="quiet" role="status">
            Saved as {outcome.fileName}
          </span>
        ) : null}
      </div>
      {outcome !== null && 'failed' in outcome ? (
        <Notice title="The picture could not be made." tone="fail" urgent>
          <p>{outcome.failed}</p>
        </Notice>
      ) : null}
    </div>
  );
}
