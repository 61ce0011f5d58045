import 'fake-indexeddb/auto';
import { act, screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { type ChainBreakKind, checkChains } from '../../src/journal/chain.ts';
import { useChainCheck } from '../../src/views/chainCheck.tsx';
import { ChainNotice } from '../../src/views/chainNotice.tsx';
import { openStore, show, staffed } from './onLogbook.tsx';

function StartButton() {
  const { start } = useChainCheck();
  return (
    <button onClick={start} type="button">
      Check
    </button>
  );
}

/** The notice after a check that found breaks of these kinds. */
async function noticeOf(...kinds: ChainBreakKind[]) {
  const handle = await openStore(staffed());
  const breaks = kinds.map((kind, row) => {
    return { kind, row, entryId: `entry-${row}`, workstation: 'workstation-a', seq: row + 1, sentence: kind };
  });
  const checking = { ...handle, checkChains: async () => ({ ...(await checkChains([])), breaks }) };
  const { user } = await show(
    checking,
    <>
      <StartButton />
      <ChainNotice />
    </>,
  );
  expect(screen.queryByText(/journal/)).not.toBeInTheDocument();
  await user.click(screen.getByRole('button', { name: 'Check' }));
  await act(async () => undefined);
}

describe('the notice of a broken chain', () => {
  it('is not there where the chain holds', async () => {
    await noticeOf();
    expect(screen.queryByText(/journal/)).not.toBeInTheDocument();
  });

  it('interrupts, counts the breaks and leads to Records', async () => {
    await noticeOf('hash', 'twice');
    expect(screen.getByRole('alert')).toHaveTextContent('The journal is not as it was written.');
    expect(screen.getByRole('alert')).toHaveTextContent('2 breaks');
    expect(screen.getByRole('link', { name: /under Records/ })).toHaveAttribute('href', '/records');
  });

  it('does not cry tampering over a chain that was only continued in two places', async () => {
    await noticeOf('twice');
    expect(screen.getByRole('status')).toHaveTextContent('continued in two places. Both are kept.');
    expect(screen.queryByRole('alert')).not.toBeInTheDocument();
  });
});
