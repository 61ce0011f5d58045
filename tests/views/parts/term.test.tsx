// Before anything that loads Dexie: it looks for IndexedDB once, when it is loaded.
import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Term, TermLine } from '../../../src/views/parts/term.tsx';
import { termOf } from '../../../src/views/terms.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';

describe('Term', () => {
  it('says by the keyboard alone what its word means, where that comes from and where it is made', async () => {
    const { user } = await show(
      await openStore(staffed()),
      <p>
        Its <Term id="z">z</Term> is 2.1.
      </p>,
    );
    const word = screen.getByRole('button', { name: 'z (what it means)' });
    expect(word.getAttribute('aria-expanded')).toBe('false');
    await user.tab();
    expect(document.activeElement).toBe(word);
    await user.keyboard('{Enter}');
    expect(word.getAttribute('aria-expanded')).toBe('true');
    const note = document.getElementById(word.getAttribute('aria-controls') ?? '');
    const { says, source } = termOf('z');
    expect(note?.textContent).toContain(says);
    expect(note?.textContent).toContain(`Source: ${source}.`);
    // The way on follows the word itself.
    await user.tab();
    expect(document.activeElement).toBe(screen.getByRole('link', { name: 'How it is made' }));
    expect(document.activeElement?.getAttribute('href')).toBe('/method/own-limits');
  });

  it('closes by its word and by Escape', async () => {
    const { user } = await show(await openStore(staffed()), <Term id="failure" />);
    const word = screen.getByRole('button', { name: 'Failure (what it means)' });
    await user.click(word);
    await user.click(word);
    expect(screen.queryByText(termOf('failure').says, { exact: false })).toBeNull();
    await user.click(word);
    expect(screen.getByText(termOf('failure').says, { exact: false })).toBeDefined();
    await user.keyboard('{Escape}');
    expect(screen.queryByText(termOf('failure').says, { exact: false })).toBeNull();
    expect(document.activeElement).toBe(word);
  });

  it('stands in a named group where several words are explained in one line', async () => {
    const { user } = await show(await openStore(staffed()), <TermLine ids={['epoch', 'rule R-4s']} />);
    const line = within(screen.getByRole('group', { name: 'What is meant by' }));
    await user.click(line.getByRole('button', { name: /^R-4s/ }));
    await user.click(line.getByRole('button', { name: /^Epoch/ }));
    // Both stay open: whoever compares two words needs both.
    expect(line.getAllByRole('link').map((link) => link.getAttribute('href'))).toEqual([
      '/method/own-limits',
      '/method/rules',
    ]);
  });
});
