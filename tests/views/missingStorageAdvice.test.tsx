import { render, screen } from '@testing-library/react';
import { expect, it, vi } from 'vitest';
import { StorageProblem } from '../../src/store/openLogbook.ts';
import { StorageTrouble } from '../../src/views/storageTrouble.tsx';

vi.mock('../../src/views/storageAdvice.ts', () => {
  throw new Error('The server is gone.');
});

it('where the advice did not arrive, the browser’s own words stand in its place', async () => {
  render(<StorageTrouble problem={new StorageProblem('quota', 'No space left on the device.')} />);
  expect(await screen.findByRole('alert')).toHaveTextContent('No space left on the device.');
  expect(screen.getByRole('button', { name: 'Reload' })).toBeVisible();
});
