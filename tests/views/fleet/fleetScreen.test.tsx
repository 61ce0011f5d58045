import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { commonHref, fleetHref, noticeHref } from '../../../src/views/deskRoutes.ts';
import FleetScreen from '../../../src/views/fleet/fleetScreen.tsx';
import { investigationHref, runHref } from '../../../src/views/routes.ts';
import { axe } from '../charts/axe.ts';
import { failing, goodWeeks, room5, threeAnalyzers } from '../investigationFixtures.ts';
import { ids, laboratoryDrafts, run, week } from '../laboratory.ts';
import { openStore, show } from '../onLogbook.tsx';

async function fleet(drafts: readonly EntryDraft[], laboratory = threeAnalyzers()) {
  const handle = await openStore([...laboratory, ...drafts]);
  return show(handle, <FleetScreen />, fleetHref);
}

const rows = () => within(screen.getByRole('table')).getAllByRole('row').slice(1);
const analyzers = () => rows().map((row) => within(row).getByRole('rowheader').textContent);

const twoRooms = () => [
  ...goodWeeks(0),
  ...goodWeeks(100, { analyzerId: room5 }),
  failing(3.12),
  run(110, 2.95, { analyzerId: room5, madeAt: week(10) }),
];

describe('fleet screen', () => {
  it('has each series with its chart in words and the way to all that stands of it', async () => {
    const { container } = await fleet(twoRooms());
    const [first] = rows();
    if (first === undefined) throw new Error('the table has no row');
    const row = within(first);
    expect(row.getByRole('img')).toHaveAccessibleName(
      /^VA, patient test: 11 runs from 5 Jan 2026 to 16 Mar 2026, z between .*, 1 failed$/,
    );
    const hrefs = row.getAllByRole('link').map((link) => link.getAttribute('href'));
    expect(hrefs).toEqual([
      `/charts/${ids.analyzer}/patient-test/va`,
      investigationHref(ids.run(10)),
      runHref(ids.run(10)),
      noticeHref(ids.analyzer),
    ]);
    expect(first).toHaveTextContent('Fail');
    expect(screen.getByRole('link', { name: 'Days and technologists compared' })).toHaveAttribute(
      'href',
      commonHref(),
    );
    expect(await axe(container)).toEqual([]);
  });

  it('is sorted by what needs attention, by a column on request, and turned round at the next press', async () => {
    const { user } = await fleet(twoRooms());
    expect(screen.getByText('Sorted by what needs attention.')).toBeVisible();
    expect(analyzers()).toEqual(['Room 2', 'Room 2', 'Room 5', 'Room 5', 'Room 7']);
    const head = screen.getByRole('columnheader', { name: /^Analyzer/ });
    expect(head).not.toHaveAttribute('aria-sort');
    await user.click(within(head).getByRole('button'));
    await user.click(within(head).getByRole('button'));
    expect(head).toHaveAttribute('aria-sort', 'descending');
    expect(analyzers()).toEqual(['Room 7', 'Room 5', 'Room 5', 'Room 2', 'Room 2']);
    await user.click(screen.getByRole('button', { name: 'Sort by what needs attention' }));
    expect(analyzers()[0]).toBe('Room 2');
    expect(head).not.toHaveAttribute('aria-sort');
  });

  it('sorts by the size of z, whichever its sign', async () => {
    const { user } = await fleet(twoRooms());
    await user.click(screen.getByRole('button', { name: 'z' }));
    const z = rows().map((row) => within(row).queryAllByRole('cell')[3]?.textContent);
    // By hand, by the SD of 0.021602 L of ten good runs; DLCO 0.01 by its SD of 0.021082.
    expect(z).toEqual(['+5.55', '−2.31', '+0.47', '+0.47', undefined]);
  });

  it('says so where an analyzer has no run, and where there is none at all', async () => {
    const { container, unmount } = await fleet([]);
    expect(screen.getByText('No run has been recorded yet.')).toBeVisible();
    expect(screen.getAllByText('No run yet')).toHaveLength(3);
    expect(await axe(container)).toEqual([]);
    unmount();
    await fleet([], laboratoryDrafts().slice(0, 2));
    expect(screen.getByRole('link', { name: 'Add an analyzer under Equipment' })).toBeVisible();
    expect(screen.queryByRole('table')).toBeNull();
  });
});
