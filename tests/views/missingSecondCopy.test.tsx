import 'fake-indexeddb/auto';

import { screen } from '@testing-library/react';
import { expect, it, vi } from 'vitest';
import { SecondCopySection } from '../../src/views/records/secondCopySection.tsx';
import { SecondCopyLine } from '../../src/views/secondCopyLine.tsx';
import { openStore, show, staffed } from './onLogbook.tsx';

vi.mock('../../src/views/secondCopyParts.ts', () => {
  throw new Error('The server is gone.');
});

it('a second copy that could not be fetched is said on every screen, and under Records what follows from it', async () => {
  await show(
    await openStore(staffed()),
    <>
      <SecondCopyLine />
      <SecondCopySection />
    </>,
  );
  expect(await screen.findByText('No second copy is written: reload the page')).toBeVisible();
  expect(screen.getByText('The copy that writes itself could not be started.')).toBeVisible();
  expect(screen.getByRole('button', { name: 'Save a backup file of 4 entries' })).toBeEnabled();
});
