import 'fake-indexeddb/auto';
import { screen, waitFor } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { StorageProblem } from '../../../src/store/openLogbook.ts';
import RecoveryScreen from '../../../src/views/recovery/recoveryScreen.tsx';
import { openStore, show } from '../onLogbook.tsx';

const known = {
  count: 412,
  workstation: 'workstation-a',
  seq: 400,
  hash: 'b'.repeat(64),
  at: '2026-03-02T08:00:00.000Z',
};

async function showLoss(found: number, giveUpMissing = vi.fn(async (_initials: string) => undefined)) {
  const handle = { ...(await openStore()), giveUpMissing };
  const page = await show(handle, <RecoveryScreen missing={{ known, found }} />);
  return { ...page, giveUpMissing };
}

const goOn = () => screen.getByRole('button', { name: 'Go on without them…' });

describe('the recovery screen', () => {
  it('says what is known of what is gone, and offers a backup file first', async () => {
    await showLoss(0);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('The logbook came back empty');
    expect(screen.getByText('Entries stored').nextElementSibling).toHaveTextContent('412');
    expect(screen.getByText('Its number').nextElementSibling).toHaveTextContent('400');
    expect(screen.getByText(known.hash)).toBeInTheDocument();
    expect(screen.getByLabelText('Backup file')).toBeInTheDocument();
  });

  it('tells how much is left where something is', async () => {
    const { user } = await showLoss(300);
    expect(screen.getByRole('main')).toHaveTextContent('Now it gives back 300.');
    await user.click(goOn());
    expect(screen.getByRole('heading', { name: 'Go on without 112 entries' })).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'Go on with what is left' })).toBeInTheDocument();
  });

  it.each(['', '  ', 'A1', 'ABCDE', '<b>'])('does not go on for initials "%s"', async (typed) => {
    const { user, giveUpMissing } = await showLoss(0);
    await user.click(goOn());
    if (typed !== '') await user.type(screen.getByLabelText('Your initials'), typed);
    await user.click(screen.getByRole('button', { name: 'Begin an empty logbook' }));
    expect(screen.getByLabelText('Your initials')).toBeInvalid();
    expect(screen.getByText(/one to four letters/)).toBeInTheDocument();
    expect(giveUpMissing).not.toHaveBeenCalled();
  });

  it('goes on under the initials typed, and can be left before', async () => {
    const { user, giveUpMissing } = await showLoss(0);
    await user.click(goOn());
    await user.click(screen.getByRole('button', { name: 'Leave it' }));
    await user.click(goOn());
    await user.type(screen.getByLabelText('Your initials'), ' ÅE ');
    await user.click(screen.getByRole('button', { name: 'Begin an empty logbook' }));
    await waitFor(() => expect(giveUpMissing).toHaveBeenCalledExactlyOnceWith('ÅE'));
  });

  it('keeps the initials and says why when the decision cannot be stored', async () => {
    const full = vi.fn(async () => Promise.reject(new StorageProblem('quota', 'no space')));
    const { user } = await showLoss(0, full);
    await user.click(goOn());
    await user.type(screen.getByLabelText('Your initials'), 'AE');
    await user.click(screen.getByRole('button', { name: 'Begin an empty logbook' }));
    expect(await screen.findByRole('alert')).toHaveTextContent('The disk is full');
    expect(screen.getByLabelText('Your initials')).toHaveDisplayValue('AE');
  });
});
