import 'fake-indexeddb/auto';
import { screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { SignableDraft } from '../../../src/journal/signature.ts';
import { prepareKey, signDrafts } from '../../../src/store/keys.ts';
import { SignatureState } from '../../../src/views/records/signatureState.tsx';
import { closure, ids, run, week } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { passphrase } from '../signing.ts';

const figure = (name: string) => screen.getByText(name).nextElementSibling;

function closing(id: string): SignableDraft {
  const made = closure(0, week(1));
  if (made.kind !== 'failure-closed') throw new Error('not a closing');
  return { ...made, id, body: { ...made.body, closureId: id } };
}

describe('the signatures of the journal', () => {
  it('are none before anything is closed, and claim nothing', async () => {
    await show(await openStore([...staffed(), run(0, 3)]), <SignatureState />);
    expect(figure('Closings')).toHaveTextContent('0');
    expect(
      screen.getByText(/proof within this laboratory; it claims conformity with no regulation/),
    ).toBeVisible();
    expect(screen.queryByRole('alert')).not.toBeInTheDocument();
  });

  it('are counted, and each that does not verify is named', async () => {
    const handle = await openStore([...staffed(), run(0, 3.37)]);
    const key = await prepareKey(handle, { technologistId: ids.supervisor, passphrase, reason: '' });
    const signed = await signDrafts(handle, {
      keyId: key.body.keyId,
      passphrase,
      drafts: [closing('closing-signed'), closing('closing-changed')],
    });
    const [good, other] = signed ?? [];
    if (!good || !other) throw new Error('nothing was signed');
    if (other.kind !== 'failure-closed') throw new Error('it closes no failure');
    const changed = { ...other, body: { ...other.body, reason: 'Something else.' } };
    await handle.appendEntries([key, good, changed, closing('closing-unsigned')]);
    await show(handle, <SignatureState />);
    expect(await screen.findByText('1 signature does not verify')).toBeInTheDocument();
    expect(figure('Closings')).toHaveTextContent('3');
    expect(figure('Signed and verified')).toHaveTextContent('1');
    expect(figure('Not signed')).toHaveTextContent('1');
    expect(figure('Do not verify')).toHaveTextContent('1');
    expect(screen.getByRole('alert')).toHaveTextContent(
      /The signature is not one of IM for these words.*Entry closing-changed/,
    );
    expect(screen.getByRole('alert')).not.toHaveTextContent(/closing-signed/);
  });
});
