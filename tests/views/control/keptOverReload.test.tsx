import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { useKeptControls } from '../../../src/views/control/keptControls.ts';
import { takenUp } from '../../../src/views/control/keptOverReload.ts';
import { newControlHref } from '../../../src/views/deskRoutes.ts';
import { biological, subjectAdded } from '../controlDrafts.ts';
import { ids, opened, week } from '../laboratory.ts';
import { openStore, staffed, takeInHand } from '../onLogbook.tsx';
import { controlsIn, field, openAt, press } from './onControls.tsx';
import { typedSession, typedTest } from './typed.ts';

const empty = useKeptControls.getState();
const reload = () => useKeptControls.setState(empty, true);

beforeEach(() => takeInHand(ids.technologist));

describe('a control that is half typed when the page is loaded again', () => {
  it('is there again, each kind at its own address, until it is recorded', async () => {
    const handle = await openStore([...staffed(), subjectAdded()]);
    const test = newControlHref('biological', ids.analyzer);
    const first = await openAt(handle, test);
    fireEvent.change(field('DLCO'), { target: { value: '25,4' } });
    fireEvent.change(field('Alveolar volume, VA'), { target: { value: '5.9' } });
    first.unmount();
    reload();

    const session = await openAt(handle, newControlHref('simulator', ids.analyzer));
    const high = within(screen.getByRole('group', { name: 'High level' }));
    expect(high.getByRole('textbox', { name: 'DLCO as reported' })).toHaveValue('');
    fireEvent.change(high.getByRole('textbox', { name: 'DLCO as reported' }), { target: { value: '27.9' } });
    session.unmount();
    reload();

    const second = await openAt(handle, test);
    await waitFor(() => expect(field('DLCO')).toHaveValue('25,4'));
    expect(field('Alveolar volume, VA')).toHaveValue('5.9');
    await second.user.click(press('Record test'));
    await screen.findByText(/^Saved\. Test of/);
    second.unmount();
    reload();

    const again = await openAt(handle, newControlHref('simulator', ids.analyzer));
    const kept = () =>
      within(screen.getByRole('group', { name: 'High level' })).getByRole('textbox', {
        name: 'DLCO as reported',
      });
    await waitFor(() => expect(kept()).toHaveValue('27.9'));
    again.unmount();
    await openAt(handle, test);
    await controlsIn(handle);
    expect(field('DLCO')).toHaveValue('');
    expect(await controlsIn(handle)).toHaveLength(1);
  });
});

describe('takenUp', () => {
  const keptAt = Date.parse(week(3));
  const minutes = (count: number) => keptAt + count * 60_000;
  const typed = typedTest({ dlco: '24.9', va: '5.97' });

  it('takes an empty date for now for some minutes, and then for when it was typed', async () => {
    const { logbook } = await opened([subjectAdded()]);
    expect(takenUp({ draft: typed, keptAt }, logbook, minutes(5))).toEqual(typed);
    const later = takenUp({ draft: typed, keptAt }, logbook, minutes(24 * 60));
    expect(new Date(later?.madeAt ?? '').getTime()).toBe(keptAt);
    const dated = { ...typed, madeAt: '2026-01-20T08:00' };
    expect(takenUp({ draft: dated, keptAt }, logbook, minutes(24 * 60))).toEqual(dated);
  });

  it('leaves what was recorded although the browser died before it could note so', async () => {
    // biological(3, 24.9) is written after week 3 began, with a VA of 5.97 L.
    const { logbook } = await opened([subjectAdded(), biological(3, 24.9, { vaL: 5.97 })]);
    const [logged] = logbook.controls;
    const before = Date.parse(logged?.entry.at ?? '') - 1000;
    expect(takenUp({ draft: typed, keptAt: before }, logbook, minutes(5))).toBeNull();
    // Typed after that one was recorded: it is another test with the same readings.
    expect(takenUp({ draft: typed, keptAt: before + 2000 }, logbook, before + 60_000)).not.toBeNull();
    expect(
      takenUp({ draft: { ...typed, dlco: '24.8' }, keptAt: before }, logbook, minutes(5)),
    ).not.toBeNull();
  });

  it('leaves what was typed for an analyzer that is not in this logbook', async () => {
    const { logbook } = await opened([]);
    expect(takenUp({ draft: typedSession({ analyzerId: 'elsewhere' }), keptAt }, logbook, keptAt)).toBeNull();
    expect(takenUp({ draft: typedSession(), keptAt }, logbook, keptAt)).toEqual(typedSession());
  });
});
