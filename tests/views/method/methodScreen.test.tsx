// Before anything that loads Dexie: it looks for IndexedDB once, when it is loaded.
import 'fake-indexeddb/auto';
import { act, screen, within } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import MethodScreen from '../../../src/views/method/methodScreen.tsx';
import { methodPlaces } from '../../../src/views/terms.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { limitsAdopted } from '../settingDrafts.ts';

const screenAt = async (path: string) => {
  const handle = await openStore(staffed());
  // Nothing is laid out here, and so nothing scrolls.
  Element.prototype.scrollIntoView ??= () => {};
  return { handle, ...(await show(handle, <Route component={MethodScreen} path="/method/*?" />, path)) };
};

describe('MethodScreen', () => {
  it('has a heading for each part and a way to it', async () => {
    const { user, location } = await screenAt('/method');
    const parts = within(screen.getByRole('navigation', { name: 'Parts of the method' })).getAllByRole(
      'link',
    );
    expect(parts.map((link) => link.getAttribute('href'))).toEqual(
      methodPlaces.map((place) => `/method/${place}`),
    );
    expect(screen.getAllByRole('heading', { level: 2 }).map(({ textContent }) => textContent)).toEqual(
      parts.map(({ textContent }) => textContent),
    );
    await user.click(screen.getByRole('link', { name: 'Control rules' }));
    expect(location.history?.at(-1)).toBe('/method/rules');
    const heading = screen.getByRole('heading', { name: 'Control rules' });
    expect(document.activeElement).toBe(heading);
    // Chosen once more after reading on, it comes up again although the address is the same.
    const brought = vi.spyOn(heading, 'scrollIntoView');
    await user.click(screen.getByRole('link', { name: 'Control rules' }));
    expect(brought).toHaveBeenCalledTimes(1);
  });

  it('opens at the part that the address names, and says so where it names none', async () => {
    await screenAt('/method/uncertainty');
    expect(document.activeElement?.textContent).toBe('How well a simulated VA is known');
  });

  it('shows all of it at an address that names no part', async () => {
    await screenAt('/method/nonsense');
    expect(screen.getByText(/names no part of the method/)).toBeDefined();
    expect(screen.getAllByRole('heading', { level: 2 })).toHaveLength(methodPlaces.length);
  });

  it('follows a limit that is adopted while it stands open', async () => {
    const { handle } = await screenAt('/method');
    expect(screen.queryByText('±150 mL, ends included')).toBeNull();
    const from = new Date(Date.now() - 1000).toISOString();
    await act(async () => {
      await handle.appendEntries([limitsAdopted(from, { edition: 'House 2026', vaToleranceL: 0.15 })]);
    });
    // In force, and among the editions.
    expect(screen.getAllByText('±150 mL, ends included')).toHaveLength(2);
  });
});
