import 'fake-indexeddb/auto';
import { screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import { entrySchema } from '../../../src/journal/entries.ts';
import { usualClosingRules } from '../../../src/journal/standing.ts';
import LaboratoryScreen from '../../../src/views/laboratory/laboratoryScreen.tsx';
import {
  closingDraft,
  closingWarnings,
  readClosing,
  setClosing,
} from '../../../src/views/laboratory/setClosing.ts';
import { sealChain } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { ids } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand } from '../onLogbook.tsx';

const press = (name: string) => screen.getByRole('button', { name });
const textbox = (name: string) => screen.getByRole('textbox', { name });
const onClosing = (handle: Parameters<typeof show>[0]) =>
  show(handle, <Route component={LaboratoryScreen} path="/laboratory/*?" />, '/laboratory/closing');

beforeEach(() => takeInHand(ids.supervisor));

describe('what a closure needs', () => {
  it('comes back as it was opened, and is an entry that the journal takes', async () => {
    const reading = readClosing(closingDraft(usualClosingRules));
    expect(reading).toEqual({ ok: true, description: usualClosingRules });
    const entries = await sealChain(setClosing(usualClosingRules, ids.supervisor, 'As we do it.'));
    for (const entry of entries) expect(entrySchema.safeParse(entry).success).toBe(true);
  });

  it.each([
    ['', /Type how many/],
    ['0', /cannot be/],
    ['21', /cannot be/],
    ['1.5', /not a whole number/],
    ['two', /not a number/],
  ])('refuses “%s” passing runs beside the field', (proofRuns, message) => {
    const reading = readClosing({ ...closingDraft(usualClosingRules), proofRuns });
    expect(reading.ok ? '' : reading.errors.proofRuns).toMatch(message);
  });

  it('warns of each step that is no longer asked for', () => {
    expect(closingWarnings(usualClosingRules)).toEqual([]);
    expect(closingWarnings({ proofRuns: 3, needsAction: false, needsLookBack: false })).toEqual([
      expect.stringContaining('what was done'),
      expect.stringContaining('nobody has looked at the results'),
    ]);
  });

  it('is set by a supervisor with a reason, and only where it changes something', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onClosing(handle);
    expect(screen.getByText(/^Nobody has set it/)).toBeInTheDocument();
    await user.click(press('Set what a closure needs…'));
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('Reason'), 'Two are surer.');
    await user.click(press('Set it from now on'));
    expect(screen.getByText('Nothing is changed: this is in force already.')).toBeInTheDocument();
    await user.clear(textbox('Runs'));
    await user.type(textbox('Runs'), '2');
    await user.click(screen.getByRole('checkbox', { name: /^The corrective action/ }));
    expect(screen.getByText(/closed without a word on what was done/)).toBeInTheDocument();
    await user.click(press('Set it from now on'));
    await screen.findByText(/^Set by IM, Ilse Marong/);
    expect((await settledEntriesOf(handle)).at(-1)).toMatchObject({
      kind: 'closing-rules-set',
      by: ids.supervisor,
      body: { proofRuns: 2, needsAction: false, needsLookBack: true, reason: 'Two are surer.' },
    });
    expect(screen.getByRole('link', { name: /^What a closure needs/ })).toHaveTextContent(
      '2 passing runs, look-back',
    );
    expect(screen.getByRole('heading', { name: 'History' })).toBeInTheDocument();
  });
});
