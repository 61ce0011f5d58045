import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import CommonScreen from '../../../src/views/common/commonScreen.tsx';
import { commonHref, fleetHref, technologistsHref } from '../../../src/views/deskRoutes.ts';
import { runHref } from '../../../src/views/routes.ts';
import { axe } from '../charts/axe.ts';
import { failing, goodWeeks, room5, room7, sameDay, threeAnalyzers } from '../investigationFixtures.ts';
import { ids, run, technologistDraft, week } from '../laboratory.ts';
import { openStore, show } from '../onLogbook.tsx';

async function common(drafts: readonly EntryDraft[], path = commonHref()) {
  const handle = await openStore([...threeAnalyzers(), technologistDraft(), ...drafts]);
  return show(handle, <Route component={CommonScreen} path="/common/*?" />, path);
}

const sharedWeek = () => [
  ...goodWeeks(0),
  ...goodWeeks(200, { analyzerId: room5 }),
  ...goodWeeks(300, { analyzerId: room7 }),
  failing(3.06),
  sameDay(110, 3.06, { analyzerId: room5 }),
  sameDay(120, 3.06, { analyzerId: room7 }),
];

const turns = () =>
  Array.from({ length: 10 }, (_, index) =>
    run(index, 3 + (index % 3) * 0.01, {
      technologistId: index % 2 === 0 ? ids.supervisor : ids.technologist,
    }),
  );

describe('common cause screen', () => {
  it('shows the newest shared day, each analyzer with its run and what it says', async () => {
    const { container } = await common(sharedWeek());
    expect(screen.getByRole('heading', { name: '16 Mar 2026' })).toBeVisible();
    expect(screen.getByText(/^VA: the 3 analyzers have a shift of \+2\.8 SD in common/)).toBeVisible();
    const table = within(screen.getByRole('region', { name: 'Shift of VA' }));
    const [, room2] = table.getAllByRole('row');
    if (room2 === undefined) throw new Error('the table has no row');
    expect(room2).toHaveTextContent(/^Room 2Moved with the others\+60\+2\.8/);
    expect(within(room2).getByRole('link')).toHaveAttribute('href', runHref(ids.run(10)));
    expect(screen.getByRole('link', { name: 'The fleet on one page' })).toHaveAttribute('href', fleetHref);
    expect(await axe(container)).toEqual([]);
  });

  it('lists the days with what they say, and shows the one in the address', async () => {
    await common(sharedWeek(), commonHref('2026-03-09'));
    const days = within(screen.getByRole('navigation', { name: 'Days' })).getAllByRole('link');
    expect(days).toHaveLength(11);
    expect(days[0]).toHaveTextContent(/^16 Mar 2026 3 analyzers, .*VA: moved together$/);
    expect(days[1]).toHaveAttribute('aria-current', 'true');
    expect(screen.getByText(/^VA: fewer than two of the analyzers had own limits/)).toBeVisible();
  });

  it('shows twelve days, and earlier ones on demand', async () => {
    const weeks = Array.from({ length: 14 }, (_, index) => [
      run(index, 3),
      run(100 + index, 3, { analyzerId: room5, madeAt: week(index) }),
    ]);
    const { user } = await common(weeks.flat());
    const days = () => within(screen.getByRole('navigation', { name: 'Days' })).getAllByRole('link');
    expect(days()).toHaveLength(12);
    await user.click(screen.getByRole('button', { name: 'Show 12 earlier days' }));
    expect(days()).toHaveLength(14);
    expect(screen.queryByRole('button', { name: /earlier days/ })).toBeNull();
  });

  it('compares technologists for teaching, not for ranking', async () => {
    const path = technologistsHref(ids.analyzer, 'patient-test');
    const { container } = await common(turns(), path);
    expect(screen.getByRole('heading', { name: 'Technologists: Room 2, patient test' })).toBeVisible();
    expect(screen.getByText('For teaching, not for ranking.')).toBeVisible();
    const table = within(screen.getByRole('region', { name: 'Differences in VA' }));
    expect(table.getByRole('rowheader')).toHaveTextContent('IM less OF');
    expect(table.queryByRole('columnheader', { name: /together/ })).toBeNull();
    const listed = within(screen.getByRole('navigation', { name: 'Technologists' }));
    expect(listed.getByRole('link', { name: /Room 2/ })).toHaveAttribute('aria-current', 'true');
    expect(await axe(container)).toEqual([]);
  });

  it('says what it takes where there is nothing to compare', async () => {
    const { unmount, container } = await common([]);
    expect(screen.getByText(/^None yet\. It takes a day on which two analyzers/)).toBeVisible();
    expect(await axe(container)).toEqual([]);
    unmount();
    await common(turns().slice(0, 4), technologistsHref(ids.analyzer, 'patient-test'));
    expect(screen.getByText(/It takes two of them with five accepted runs/)).toBeVisible();
    expect(screen.getByText('Left out, with fewer than 5 accepted runs: IM (2), OF (2).')).toBeVisible();
  });

  it.each(['2026-03-10', '2026-02-31', 'nonsense'])('says so where %s is no shared day', async (address) => {
    await common(sharedWeek(), commonHref(address));
    expect(screen.getByText(/^On the day of this address no two analyzers/)).toBeVisible();
  });
});
