import 'fake-indexeddb/auto';

import { act, screen } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { readBackup } from '../../src/exchange/readBackup.ts';
import { SecondCopyLine } from '../../src/views/secondCopyLine.tsx';
import { run } from './laboratory.ts';
import { openStore, show, staffed } from './onLogbook.tsx';
import { folderInMemory, withSettingsInMemory } from './secondCopySteps.ts';

const arrival = vi.hoisted(() => {
  let arrive = () => {};
  const arrived = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  return { arrived, arrive: () => arrive() };
});

vi.mock('../../src/views/secondCopyParts.ts', async (original) => {
  await arrival.arrived;
  return original();
});

describe('the part of the program that writes the second copy', () => {
  it('copies, once it arrives, what was saved before it did', async () => {
    const { folder, control } = folderInMemory();
    const handle = withSettingsInMemory(await openStore(staffed()));
    await handle.writeSetting('second-copy', { choice: 'picked-before', fileName: 'copy.jsonl', folder });
    const { container } = await show(handle, <SecondCopyLine />);
    await act(() => handle.appendEntries([run(1, 3.45)]));
    // Nothing waits for it, and nothing is said of what is not known.
    expect(container).toBeEmptyDOMElement();
    expect(control.content).toHaveLength(0);
    await act(async () => arrival.arrive());
    expect(
      await screen.findByRole('link', { name: 'Second copy: just now' }, { timeout: 4000 }),
    ).toBeVisible();
    expect(await readBackup(control.content)).toMatchObject({ isWhole: true, counts: { known: 5 } });
  });
});
