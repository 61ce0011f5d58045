import { counted } from '../parts/figures.ts';
import { saveFile } from '../parts/saveFile.ts';
import type { JudgedFile } from './importFile.ts';

/** The refused rows as a file with the reason behind each, to be put right and imported again. */
export function SaveRefused({ judged, fileName }: { judged: JudgedFile; fileName: string }) {
  const { refused } = judged.judgement.counts;
  if (refused === 0) return null;
  return (
    <div>
      <button
        onClick={() => saveFile(judged.refusedCsv, refusedName(fileName), 'text/csv;charset=utf-8')}
        type="button"
      >
        Save {counted(refused, 'refused row')} as CSV
      </button>
    </div>
  );
}

const refusedName = (fileName: string) => `${fileName.replace(/\.[^.]*$/, '') || 'import'}-refused.csv`;
