/** The thread of its own in which a stored journal is checked. It reads what lies in storage, not what a page holds of it. */

import { checkChains } from '../journal/chain.ts';
import type { FromChainCheck } from './chainCheck.ts';
import { LogbookDatabase } from './database.ts';
import { messageOf } from './messageOf.ts';

const tell = (message: FromChainCheck) => postMessage(message);

async function check(databaseName: string): Promise<void> {
  const database = new LogbookDatabase(databaseName);
  try {
    const rows = (await database.rowsAfter(0)).map(({ value }) => value);
    const report = await checkChains(rows, (checked) => tell({ checked, total: rows.length }));
    tell({ report });
  } catch (error) {
    tell({ problem: messageOf(error) });
  } finally {
    database.close();
  }
}

addEventListener('message', ({ data }: MessageEvent<string>) => void check(data), { once: true });
