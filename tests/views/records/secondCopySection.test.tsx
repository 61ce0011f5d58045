import 'fake-indexeddb/auto';

import { act, screen, waitFor } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { readBackup } from '../../../src/exchange/readBackup.ts';
import { SecondCopySection } from '../../../src/views/records/secondCopySection.tsx';
import { SecondCopyLine } from '../../../src/views/secondCopyLine.tsx';
import { axe } from '../charts/axe.ts';
import { run } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { folderInMemory, withSettingsInMemory } from '../secondCopySteps.ts';

afterEach(() => vi.unstubAllGlobals());

const page = (
  <>
    <SecondCopyLine />
    <SecondCopySection />
  </>
);

/** What was handed to the browser's downloads, in order. */
function catchDownloads() {
  const caught: { name: string; content: Blob }[] = [];
  const contents: Blob[] = [];
  vi.stubGlobal(
    'URL',
    Object.assign(URL, {
      createObjectURL: (blob: Blob) => {
        contents.push(blob);
        return 'blob:made-up';
      },
      revokeObjectURL: () => {},
    }),
  );
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    const content = contents.at(-1);
    if (content) caught.push({ name: this.download, content });
  });
  return caught;
}

/** What the person picks when the browser asks for a folder. */
function pickableFolder() {
  const made = folderInMemory();
  vi.stubGlobal('showDirectoryPicker', async () => made.folder);
  return made;
}

describe('second copy, under Records', () => {
  it('saves a backup file that can be read again, and the reminder goes', async () => {
    const caught = catchDownloads();
    const handle = await openStore([...staffed(), run(1, 3)]);
    const { user, container } = await show(handle, page);
    expect(await screen.findByRole('link', { name: '5 entries not yet copied' })).toBeVisible();
    expect(await axe(container)).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Save a backup file of 5 entries' }));
    expect(await screen.findByText(/^5 entries written to dlco-qc-backup_/)).toBeVisible();
    const [file] = caught;
    expect(file?.name).toMatch(/^dlco-qc-backup_\d{4}-\d{2}-\d{2}_5-entries\.jsonl$/);
    const read = await readBackup(new Uint8Array((await file?.content.arrayBuffer()) ?? []));
    const snapshot = handle.getSnapshot();
    expect(read).toMatchObject({
      isWhole: true,
      rows: snapshot.state === 'ready' ? snapshot.rawRows : null,
    });
    expect(screen.getByRole('link', { name: 'Backup file: just now' })).toBeVisible();
    await act(() => handle.appendEntries([run(2, 3)]));
    expect(screen.getByRole('link', { name: '1 entry not yet copied' })).toBeVisible();
  });

  it('says that nothing is copied by itself where the browser gives no folder', async () => {
    await show(await openStore(staffed()), page);
    expect(await screen.findByText(/does not let a page write into a folder/)).toBeVisible();
    expect(screen.queryByRole('button', { name: /Pick a folder/ })).not.toBeInTheDocument();
  });

  it('writes into the folder that is picked, shows a failure on every screen, and tries again', async () => {
    const { control } = pickableFolder();
    const handle = withSettingsInMemory(await openStore(staffed()));
    const { user } = await show(handle, page);
    await user.click(await screen.findByRole('button', { name: 'Pick a folder…' }));
    expect(await screen.findByRole('link', { name: 'Second copy: just now' })).toBeVisible();
    expect(await readBackup(control.content)).toMatchObject({ isWhole: true, counts: { known: 4 } });
    control.trouble = true;
    await act(() => handle.appendEntries([run(1, 3)]));
    const failure = 'Second copy failed: 1 entry not yet copied';
    expect(await screen.findByRole('link', { name: failure }, { timeout: 4000 })).toBeVisible();
    expect(screen.getByText(/The share is gone\. The copy before it is still whole/)).toBeVisible();
    control.trouble = false;
    await user.click(screen.getByRole('button', { name: 'Try again' }));
    expect(await screen.findByRole('link', { name: 'Second copy: just now' })).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Write it no more' }));
    expect(await screen.findByRole('link', { name: '5 entries not yet copied' })).toBeVisible();
  });

  it('asks for a lost permission by a button at the top', async () => {
    const { control } = pickableFolder();
    const handle = withSettingsInMemory(await openStore(staffed()));
    const { user } = await show(handle, page);
    await user.click(await screen.findByRole('button', { name: 'Pick a folder…' }));
    await screen.findByRole('link', { name: 'Second copy: just now' });
    control.permission = 'prompt';
    await act(() => handle.appendEntries([run(1, 3)]));
    const waits = 'Second copy waits for permission: 1 entry not yet copied';
    expect(await screen.findByRole('link', { name: waits }, { timeout: 4000 })).toBeVisible();
    const [atTheTop] = screen.getAllByRole('button', { name: 'Allow again' });
    if (atTheTop) await user.click(atTheTop);
    expect(await screen.findByRole('link', { name: 'Second copy: just now' })).toBeVisible();
  });

  it('says what went wrong when the folder cannot be used, and nothing when none is picked', async () => {
    vi.stubGlobal('showDirectoryPicker', async () => {
      throw new DOMException('', 'AbortError');
    });
    const { user } = await show(await openStore(staffed()), page);
    const pick = await screen.findByRole('button', { name: 'Pick a folder…' });
    await user.click(pick);
    expect(screen.queryByRole('alert')).not.toBeInTheDocument();
    vi.stubGlobal('showDirectoryPicker', async () => {
      throw new Error('Forbidden by policy.');
    });
    await user.click(pick);
    await waitFor(() => expect(screen.getByRole('alert')).toHaveTextContent('Forbidden by policy.'));
  });
});
