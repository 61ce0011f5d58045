/** What a supervisor does to sign, in the fields that a form shows them. */
import { screen } from '@testing-library/react';
import type userEvent from '@testing-library/user-event';
import { vi } from 'vitest';

export const passphrase = 'four grey herons';

/** A passphrase is slow on purpose: 600,000 rounds to make the key that opens it, twice where one is chosen. */
export const whenSigned = { timeout: 20_000 };
vi.setConfig({ testTimeout: 60_000 });

type User = ReturnType<typeof userEvent.setup>;

export async function choosePassphrase(user: User, typed = passphrase, again = typed) {
  await user.type(await screen.findByLabelText('New passphrase'), typed);
  await user.type(screen.getByLabelText('The same again'), again);
}

export async function typePassphrase(user: User, typed = passphrase) {
  await user.type(await screen.findByLabelText('Passphrase'), typed);
}
