import 'fake-indexeddb/auto';
import { screen, waitFor } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import { signDrafts } from '../../../src/store/keys.ts';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import EquipmentScreen from '../../../src/views/equipment/equipmentScreen.tsx';
import { draft, ids } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { choosePassphrase, passphrase, whenSigned } from '../signing.ts';

const press = (name: string) => screen.findByRole('button', { name });
const pageOf = (handle: LogbookHandle, personId: string) =>
  show(handle, <Route component={EquipmentScreen} path="/equipment/*?" />, `/equipment/person/${personId}`);

async function registrations(handle: LogbookHandle) {
  const entries = await settledEntriesOf(handle);
  return entries.filter(({ kind }) => kind === 'key-registered');
}

beforeEach(() => takeInHand(ids.technologist));

describe('a passphrase', () => {
  it('is for supervisors', async () => {
    await pageOf(await openStore(staffed()), ids.technologist);
    expect(screen.getByRole('heading', { level: 1, name: 'Orla Fenn' })).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: /passphrase/i })).not.toBeInTheDocument();
    expect(screen.queryByText('Passphrase')).not.toBeInTheDocument();
  });

  it('is registered by the person themself, whoever was in hand', async () => {
    const handle = await openStore(staffed());
    const { user } = await pageOf(handle, ids.supervisor);
    expect(screen.getByText('none yet')).toBeInTheDocument();
    await user.click(await press('Register a passphrase…'));
    await user.click(await press('Register the passphrase'));
    expect(screen.getByLabelText('New passphrase')).toHaveFocus();
    expect(screen.getByText('Nothing is written yet: see the marked fields.')).toBeInTheDocument();
    expect(await registrations(handle)).toEqual([]);
    await choosePassphrase(user);
    await user.click(await press('Register the passphrase'));
    expect(await screen.findByText(/^registered on this workstation/, {}, whenSigned)).toBeInTheDocument();
    await waitFor(() => expect(screen.getByRole('heading', { name: 'Ilse Marong' })).toHaveFocus());
    expect(await registrations(handle)).toMatchObject([
      { by: ids.supervisor, body: { technologistId: ids.supervisor, reason: '' } },
    ]);
    expect(screen.getByText('Passphrase registered')).toBeInTheDocument();
  });

  it('is replaced with a reason, which stays in the history', async () => {
    const handle = await openStore(staffed());
    const { user } = await pageOf(handle, ids.supervisor);
    await user.click(await press('Register a passphrase…'));
    await choosePassphrase(user);
    await user.click(await press('Register the passphrase'));
    await user.click(await screen.findByRole('button', { name: 'Replace the passphrase…' }, whenSigned));
    await choosePassphrase(user, 'five white swans');
    await user.click(await press('Replace the passphrase'));
    expect(screen.getByRole('textbox', { name: 'Why a new one' })).toHaveFocus();
    expect(await registrations(handle)).toHaveLength(1);
    await user.type(screen.getByRole('textbox', { name: 'Why a new one' }), 'Forgotten.');
    await user.click(await press('Replace the passphrase'));
    await waitFor(() => expect(screen.queryByRole('textbox')).not.toBeInTheDocument(), whenSigned);
    expect(screen.getAllByText(/Passphrase registered/)).toHaveLength(2);
    expect(screen.getByText(/Forgotten\.$/)).toBeInTheDocument();
    expect(await registrations(handle)).toHaveLength(2);
  });

  it('typed anew after a failed save is the one that counts', async () => {
    const handle = await openStore(staffed());
    const { user } = await pageOf(withOneFailure(handle, 'before'), ids.supervisor);
    await user.click(await press('Register a passphrase…'));
    await choosePassphrase(user);
    await user.click(await press('Register the passphrase'));
    await screen.findByText(/^Not saved\./, {}, whenSigned);
    const [first, second] = [
      screen.getByLabelText('New passphrase'),
      screen.getByLabelText('The same again'),
    ];
    expect(first).toHaveDisplayValue(passphrase);
    await user.type(first, '!');
    await user.type(second, '!');
    await user.click(await press('Register the passphrase'));
    await screen.findByText(/^registered on this workstation/, {}, whenSigned);
    const [{ body } = { body: {} }] = await registrations(handle);
    const opens = (typed: string) =>
      signDrafts(handle, { keyId: String(Object(body).keyId), passphrase: typed, drafts: [] });
    expect(await opens(`${passphrase}!`)).toEqual([]);
    expect(await opens(passphrase)).toBeNull();
  });

  it('registered on another workstation is said to be there', async () => {
    const key = {
      keyId: 'key-of-elsewhere',
      technologistId: ids.supervisor,
      algorithm: 'ECDSA-P256-SHA256' as const,
      publicKey: 'AAAA',
      reason: '',
    };
    await pageOf(await openStore([...staffed(), draft('key-registered', key)]), ids.supervisor);
    expect(await screen.findByText('none on this workstation; on another one')).toBeInTheDocument();
  });
});
