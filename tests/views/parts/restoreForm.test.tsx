import 'fake-indexeddb/auto';

import { screen, waitFor } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { type BackupReading, readBackup } from '../../../src/exchange/readBackup.ts';
import { type LogbookHandle, StorageProblem } from '../../../src/store/openLogbook.ts';
import type { ReadBackupFile } from '../../../src/views/parts/readBackupFile.ts';
import { RestoreForm } from '../../../src/views/parts/restoreForm.tsx';
import { backupBytes, bytesOf, chainOf } from '../../exchange/backupFixtures.ts';
import { axe } from '../charts/axe.ts';
import { openStore, settledEntriesOf, show } from '../onLogbook.tsx';

/** Reads the file at once, where the page would do so on another thread: jsdom has none. */
const readHere: ReadBackupFile = async (file, { onProgress }) => {
  const bytes = new Uint8Array(await file.arrayBuffer());
  return readBackup(bytes, { onProgress });
};

const backupFile = (bytes: Uint8Array<ArrayBuffer>, name = 'backup.jsonl') => new File([bytes], name);

async function showForm(handle: LogbookHandle, read: ReadBackupFile = readHere) {
  const page = await show(handle, <RestoreForm handle={handle} read={read} />);
  return { ...page, pick: (file: File) => page.user.upload(screen.getByLabelText('Backup file'), file) };
}

describe('restore form', () => {
  it('shows what is in the file, writes nothing before the button, then adds it', async () => {
    const chain = await chainOf(5);
    const handle = await openStore();
    const { pick, user, container } = await showForm(handle);
    await pick(backupFile(await backupBytes(chain)));
    await screen.findByRole('heading', { name: 'In backup.jsonl' });
    expect(screen.getByText('New here').nextElementSibling).toHaveTextContent('5');
    expect(await settledEntriesOf(handle)).toHaveLength(0);
    expect(await axe(container)).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Add 5 entries' }));
    expect(await screen.findByText('5 entries added from backup.jsonl')).toBeVisible();
    expect(await settledEntriesOf(handle)).toHaveLength(5);
  });

  it('merges a second time without adding anything', async () => {
    const chain = await chainOf(5);
    const handle = await openStore();
    await handle.adoptEntries(chain);
    const { pick } = await showForm(handle);
    await pick(backupFile(await backupBytes(chain)));
    expect(await screen.findByText(/Everything in it is here already/)).toBeVisible();
    expect(screen.queryByRole('button', { name: /^Add/ })).not.toBeInTheDocument();
  });

  it.each([
    ['', 'The file is empty.'],
    ['date,va\n', 'a table, such as a CSV file'],
    ['{"name":"app"}', 'JSON of another kind'],
  ])('says of a wrong file what it is: %j', async (text, sentence) => {
    const { pick } = await showForm(await openStore());
    await pick(backupFile(bytesOf(text), 'picked.txt'));
    const alert = await screen.findByRole('alert');
    expect(alert).toHaveTextContent('Nothing was taken from picked.txt.');
    expect(alert).toHaveTextContent(sentence);
  });

  it('says when the browser cannot read the file', async () => {
    const { pick } = await showForm(await openStore(), async () => {
      throw new Error('It was removed.');
    });
    await pick(backupFile(bytesOf('x')));
    expect(await screen.findByRole('alert')).toHaveTextContent('could not read the file: It was removed.');
  });

  it('keeps what was judged when the save fails, and can try again', async () => {
    const real = await openStore();
    let isFull = true;
    const handle: LogbookHandle = {
      ...real,
      adoptEntries: async (rows) => {
        if (isFull) throw new StorageProblem('quota', 'full');
        return real.adoptEntries(rows);
      },
    };
    const { pick, user } = await showForm(handle);
    await pick(backupFile(await backupBytes(await chainOf(4))));
    await user.click(await screen.findByRole('button', { name: 'Add 4 entries' }));
    expect(await screen.findByRole('alert')).toHaveTextContent('Nothing was added. The disk is full.');
    isFull = false;
    await user.click(screen.getByRole('button', { name: 'Add 4 entries' }));
    expect(await screen.findByText('4 entries added from backup.jsonl')).toBeVisible();
  });

  it('tells how far it is, and can be cancelled', async () => {
    let signal: AbortSignal | undefined;
    const never: ReadBackupFile = (_file, options) => {
      signal = options.signal;
      options.onProgress(250, 1000);
      return new Promise<BackupReading>((_resolve, reject) => {
        options.signal.addEventListener('abort', () => reject(new Error('cancelled')));
      });
    };
    const { pick, user } = await showForm(await openStore(), never);
    await pick(backupFile(bytesOf('x')));
    expect(await screen.findByText('Reading backup.jsonl: 250 of 1000 lines')).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Cancel' }));
    expect(signal?.aborted).toBe(true);
    await waitFor(() => expect(screen.queryByText(/Reading/)).not.toBeInTheDocument());
    expect(screen.queryByRole('alert')).not.toBeInTheDocument();
  });

  it('shows the file that was picked last, however long the first takes', async () => {
    let finishFirst = () => {};
    const read: ReadBackupFile = async (file, options) => {
      if (file.size === 1) {
        await new Promise<void>((resolve) => {
          finishFirst = resolve;
        });
      }
      return readHere(file, options);
    };
    const { pick } = await showForm(await openStore(), read);
    await pick(backupFile(bytesOf('x'), 'first.jsonl'));
    await pick(backupFile(await backupBytes(await chainOf(3)), 'second.jsonl'));
    await screen.findByRole('heading', { name: 'In second.jsonl' });
    finishFirst();
    await vi.waitFor(() => expect(screen.queryByText(/first.jsonl/)).not.toBeInTheDocument());
    expect(screen.getByRole('heading', { name: 'In second.jsonl' })).toBeVisible();
  });

  it('leaves a picked file when asked', async () => {
    const { pick, user } = await showForm(await openStore());
    await pick(backupFile(await backupBytes(await chainOf(3))));
    await user.click(await screen.findByRole('button', { name: 'Leave it' }));
    expect(screen.queryByRole('heading')).not.toBeInTheDocument();
  });
});
