import 'fake-indexeddb/auto';
import { act, screen, waitFor } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Link, Route } from 'wouter';
import { usualDescription } from '../../src/journal/standing.ts';
import { OnePage } from '../../src/views/parts/onePage.tsx';
import { Spread } from '../../src/views/parts/spread.tsx';
import ScreenName from '../../src/views/screenName.tsx';
import { windowTitle } from '../../src/views/screenTitle.ts';
import { draft } from './laboratory.ts';
import { openStore, show, staffed } from './onLogbook.tsx';

/** A line of screens and three of them: a list with its right page, a sheet, and one that leads to its own field. */
function Pages() {
  return (
    <>
      <header className="top-line">
        <Link href="/review">Review</Link>
        <Link href="/records">Records</Link>
        <Link href="/bench">Bench</Link>
      </header>
      <Route path="/review/:story?">
        {({ story }) => (
          <Spread
            left={
              <>
                <h1>Review</h1>
                <Link href="/review/va">VA</Link>
                <Link href="/run/one">A run</Link>
              </>
            }
            right={story === undefined ? null : <h1>VA of Room 2</h1>}
          />
        )}
      </Route>
      <Route path="/run/one">
        <OnePage>
          <h1>
            Run of <span>24 Nov</span>
          </h1>
        </OnePage>
      </Route>
      <Route path="/records">
        <OnePage>
          <h1>Records</h1>
        </OnePage>
      </Route>
      <Route path="/bench">
        <OnePage>
          <h1>Record a run</h1>
          {/* biome-ignore lint/a11y/noAutofocus: as the bench leads to the first field of a run that was begun. */}
          <input aria-label="VA" autoFocus />
        </OnePage>
      </Route>
      <ScreenName />
    </>
  );
}

const isCalled = (title: string) => waitFor(() => expect(document.title).toBe(title));
const said = () => screen.getByRole('status').textContent;

describe('the name of a screen', () => {
  it('is the window’s title, before whose logbook it is, and goes with the page', async () => {
    const handle = await openStore(staffed());
    const { user, unmount } = await show(handle, <Pages />, '/review');
    await isCalled('Review – Diffusion QC Logbook');
    expect(said()).toBe('');
    await user.click(screen.getByRole('link', { name: 'VA' }));
    await isCalled('VA of Room 2 – Review – Diffusion QC Logbook');
    const named = { ...usualDescription, name: 'Lung function, North' };
    await act(() =>
      handle.appendEntries([
        draft('laboratory-described', { descriptionId: 'described-one', ...named, reason: 'Its name.' }),
      ]),
    );
    await user.click(screen.getByRole('link', { name: 'Records' }));
    await isCalled('Records – Lung function, North, Diffusion QC Logbook');
    unmount();
    expect(document.title).toBe('Diffusion QC Logbook');
  });

  it('is said at a change of the page, and the focus goes to the new one with it', async () => {
    const { user } = await show(await openStore(staffed()), <Pages />, '/review');
    await isCalled('Review – Diffusion QC Logbook');
    expect(document.body).toHaveFocus();
    await user.click(screen.getByRole('link', { name: 'A run' }));
    await waitFor(() => expect(said()).toBe('Run of 24 Nov'));
    expect(screen.getByRole('main')).toHaveFocus();
    await user.click(screen.getByRole('link', { name: 'Records' }));
    await waitFor(() => expect(said()).toBe('Records'));
    expect(screen.getByRole('main')).toHaveFocus();
  });

  it('is said where the right page changes, and the list keeps the focus', async () => {
    const { user } = await show(await openStore(staffed()), <Pages />, '/review');
    await isCalled('Review – Diffusion QC Logbook');
    const link = screen.getByRole('link', { name: 'VA' });
    await user.click(link);
    await waitFor(() => expect(said()).toBe('VA of Room 2, Review'));
    expect(link).toHaveFocus();
  });

  it('leaves the focus, and the word, to a page that leads to its own field', async () => {
    const { user } = await show(await openStore(staffed()), <Pages />, '/review');
    await isCalled('Review – Diffusion QC Logbook');
    await user.click(screen.getByRole('link', { name: 'Bench' }));
    await isCalled('Record a run – Bench – Diffusion QC Logbook');
    expect(screen.getByRole('textbox', { name: 'VA' })).toHaveFocus();
    expect(said()).toBe('');
  });
});

describe('a window’s title', () => {
  it('names the screen of the top line once, whatever the heading says', () => {
    expect(windowTitle(['Today'], '/today/room-2', '')).toBe('Today – Diffusion QC Logbook');
    expect(windowTitle(['VA, Room 2'], '/charts/a/b/va', 'North')).toBe(
      'VA, Room 2 – Charts – North, Diffusion QC Logbook',
    );
    expect(windowTitle([], '/controls', '')).toBe('Controls – Diffusion QC Logbook');
    expect(windowTitle(['Diffusion QC Logbook'], '/bench', '')).toBe('Diffusion QC Logbook');
  });
});
