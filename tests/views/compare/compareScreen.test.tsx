import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import CompareScreen from '../../../src/views/compare/compareScreen.tsx';
import { CompareLink } from '../../../src/views/compareLink.tsx';
import { compareHref, runHref } from '../../../src/views/routes.ts';
import { useScreenState } from '../../../src/views/screenState.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids, run, week } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { builtInRun, pairRuns, tenPairs } from './pairRuns.ts';

async function compare(drafts: readonly EntryDraft[], path = compareHref(ids.analyzer)) {
  const handle = await openStore([...staffed(), ...drafts]);
  return show(handle, <Route component={CompareScreen} path="/compare/:analyzerId" />, path);
}

// Which runs share a day is for the wall of the laboratory to say.
beforeEach(() => vi.stubEnv('TZ', 'Europe/Oslo'));
afterEach(() => vi.unstubAllEnvs());

const pairTable = () => within(screen.getByRole('region', { name: 'Pairs' })).getByRole('table');
const justNow = () => new Date().toISOString();

describe('compare screen', () => {
  it('shows the newest pair in words, and every pair in the table with the way to its runs', async () => {
    await compare([...tenPairs(), ...pairRuns(10, 3.05, 3)]);
    expect(screen.getByText('The routes have parted in VA.')).toBeVisible();
    expect(
      screen.getByText(
        'Simulated VA: the patient test reads 50 mL above the built-in routine; usually 10 ± 11 mL: z +3.8. The routes have parted.',
      ),
    ).toBeVisible();
    const rows = within(pairTable()).getAllByRole('row').slice(2);
    expect(rows).toHaveLength(11);
    const [newest] = rows;
    if (!newest) throw new Error('the table has no row');
    expect(newest).toHaveTextContent('16 Mar 2026');
    const links = within(newest).getAllByRole('link');
    expect(links.map((link) => link.getAttribute('href'))).toEqual([
      runHref(ids.run(10)),
      runHref(ids.run(510)),
    ]);
    expect(links[0]).toHaveAccessibleName(/^(Pass|Warning|Fail): patient test of 16 Mar 2026, /);
  });

  it('names each chart, and says what it draws', async () => {
    const { container } = await compare([...tenPairs(), ...pairRuns(10, 3.05, 3)]);
    expect(screen.getByRole('img', { name: 'Difference in VA' })).toHaveAccessibleDescription(
      /^11 pairs from 5 Jan 2026 to 16 Mar 2026: .*between 0 and \+50 mL/,
    );
    expect(screen.getByRole('img', { name: 'Difference in DLCO' })).toBeVisible();
    expect(await axe(container)).toEqual([]);
  });

  it('offers the route that today lacks, and puts it on the bench', async () => {
    const { user, location } = await compare([run(0, 3, { madeAt: justNow() })]);
    await user.click(screen.getByRole('button', { name: 'Run the other route now: built-in routine' }));
    expect(location.history.at(-1)).toBe('/bench');
    expect(useScreenState.getState().benchDraft).toMatchObject({
      analyzerId: ids.analyzer,
      route: 'built-in',
    });
  });

  it('does not offer it once today has both, nor on a retired analyzer', async () => {
    const madeAt = justNow();
    const today = [run(0, 3, { madeAt }), builtInRun(0, 3, { madeAt })];
    const { unmount } = await compare(today);
    expect(screen.getByText(/^What is usual between the routes is not known yet/)).toBeVisible();
    expect(screen.queryByRole('button', { name: /other route/ })).toBeNull();
    unmount();
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Worn out.' });
    await compare([run(0, 3, { madeAt }), retired]);
    expect(screen.getByText(/^No partner: 1 day with the patient test alone/)).toBeVisible();
    expect(screen.queryByRole('button', { name: /other route/ })).toBeNull();
  });

  it('says what will stand here while there is no pair, and where to begin', async () => {
    const { container, unmount } = await compare([]);
    expect(screen.getByRole('link', { name: 'Record the first at the bench' })).toHaveAttribute(
      'href',
      '/bench',
    );
    expect(screen.queryByRole('region', { name: 'Pairs' })).toBeNull();
    expect(await axe(container)).toEqual([]);
    unmount();
    await compare([run(0, 3), run(1, 3)]);
    expect(screen.getByText('No partner: 2 days with the patient test alone.')).toBeVisible();
  });

  it('says so where the address names no analyzer', async () => {
    await compare([], compareHref('nobody'));
    expect(screen.getByText(/names no analyzer of the logbook/)).toBeVisible();
    expect(screen.getByRole('link', { name: /Room 2/ })).toHaveAttribute('href', compareHref(ids.analyzer));
  });

  it('warns of an analyzer that only has built-in runs for four weeks', async () => {
    const weeksAgo = (weeks: number) => new Date(Date.now() - weeks * 7 * 86_400_000).toISOString();
    await compare([0, 1, 2, 3, 5].map((weeks) => builtInRun(weeks, 3, { madeAt: weeksAgo(weeks) })));
    expect(
      screen.getByText(/^Room 2: all 4 syringe runs of the last four weeks are by the built-in routine/),
    ).toBeVisible();
  });

  it('shows sixty pairs, and all on demand', async () => {
    const { user } = await compare(Array.from({ length: 62 }, (_, index) => pairRuns(index, 3.01, 3)).flat());
    expect(within(pairTable()).getAllByRole('row')).toHaveLength(62);
    await user.click(screen.getByRole('button', { name: 'Show all 62 pairs' }));
    expect(within(pairTable()).getAllByRole('row')).toHaveLength(64);
  });
});

describe('CompareLink', () => {
  it('stands where an analyzer has been run by both routes, and nowhere else', async () => {
    const both = await openStore([...staffed(), ...pairRuns(0, 3, 3)]);
    const { unmount } = await show(both, <CompareLink analyzerId={ids.analyzer} />);
    expect(screen.getByRole('link', { name: 'Compare the routes' })).toHaveAttribute(
      'href',
      compareHref(ids.analyzer),
    );
    unmount();
    const one = await openStore([...staffed(), run(0, 3, { madeAt: week(0) })]);
    await show(one, <CompareLink analyzerId={ids.analyzer} />);
    expect(screen.queryByRole('link')).toBeNull();
  });
});
