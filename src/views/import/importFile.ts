/** What is done with a picked file, step by step, on whichever thread: read it, then judge its rows. */
import { sha256OfBytes } from '../../exchange/backupFormat.ts';
import type { KnownLogbook } from '../../exchange/importKnown.ts';
import { type ImportOutline, outlineOf } from '../../exchange/importOutline.ts';
import type { ImportPlan } from '../../exchange/importPlan.ts';
import { type ImportJudgement, judgeImport } from '../../exchange/importRuns.ts';
import { type Delimiter, type ImportTable, readImportTable } from '../../exchange/importTable.ts';
import {
  importLimits,
  readImportText,
  type TextEncodingName,
  tooLargeSentence,
} from '../../exchange/importText.ts';
import { refusedRowsToCsv } from '../../exchange/refusedRows.ts';
import { readMeasured } from '../runForm/readMeasured.ts';

export interface ReadFile {
  state: 'read';
  fileName: string;
  fileHash: string;
  bytes: number;
  encoding: TextEncodingName;
  outline: ImportOutline;
}
export type FileReading = ReadFile | { state: 'refused'; sentence: string };

export interface JudgedFile {
  judgement: ImportJudgement;
  /** The refused rows as a file; empty where none was refused. */
  refusedCsv: string;
}

export interface Progress {
  stage: 'reading' | 'parting' | 'judging';
  done: number;
  total: number;
}
export type OnProgress = (progress: Progress) => void;

/** Holds one file between the steps: its rows stay on the thread that read them. */
export function openImportFile(onProgress: OnProgress) {
  let bytes: Uint8Array<ArrayBuffer> | null = null;
  let table: ImportTable | null = null;

  async function bytesOf(file: File): Promise<Uint8Array<ArrayBuffer>> {
    const read = new Uint8Array(file.size);
    let done = 0;
    const reader = file.stream().getReader();
    for (let part = await reader.read(); !part.done; part = await reader.read()) {
      read.set(part.value, done);
      done += part.value.length;
      onProgress({ stage: 'reading', done, total: file.size });
    }
    return read;
  }

  return {
    async read(file: File, delimiter: Delimiter | null): Promise<FileReading> {
      if (file.size > importLimits.fileBytes)
        return { state: 'refused', sentence: tooLargeSentence(file.size) };
      bytes ??= await bytesOf(file);
      onProgress({ stage: 'parting', done: 0, total: file.size });
      const text = readImportText(bytes);
      if (text.state === 'refused') return text;
      const read = readImportTable(text.text, delimiter);
      if (read.state === 'refused') return read;
      table = read.table;
      return {
        state: 'read',
        fileName: file.name,
        fileHash: await sha256OfBytes(bytes),
        bytes: file.size,
        encoding: text.encoding,
        outline: outlineOf(table),
      };
    },
    judge(plan: ImportPlan, known: KnownLogbook): JudgedFile {
      if (table === null) throw new Error('judge: no file has been read');
      const total = table.rows.length;
      const judgement = judgeImport(table, plan, known, readMeasured, (done) =>
        onProgress({ stage: 'judging', done, total }),
      );
      const refusedCsv = judgement.counts.refused > 0 ? refusedRowsToCsv(table, judgement.rows) : '';
      return { judgement, refusedCsv };
    },
  };
}
