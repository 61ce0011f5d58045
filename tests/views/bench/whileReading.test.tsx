import 'fake-indexeddb/auto';
import { act, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { outlineText, readOutline } from '../../../src/journal/outline.ts';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import { App } from '../../../src/views/app.tsx';
import { ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, staffed } from '../onLogbook.tsx';

afterEach(() => {
  window.location.hash = '';
});

/** A store that has read its outline, and reads the rest when it is told to. */
async function whileReading() {
  const handle = await openStore([...staffed(), run(1, 3.45), run(2, 3.46)]);
  const all = handle.getSnapshot();
  if (all.state !== 'ready') throw new Error(`the logbook is ${all.state}`);
  const outline = { state: 'reading', logbook: readOutline(outlineText(all.logbook)) } as const;
  let isRead = false;
  const listeners = new Set<() => void>();
  const reading: LogbookHandle = {
    ...handle,
    getSnapshot: () => (isRead ? handle.getSnapshot() : outline),
    subscribe(listener) {
      listeners.add(listener);
      const stop = handle.subscribe(listener);
      return () => {
        listeners.delete(listener);
        stop();
      };
    },
  };
  const readTheRest = () =>
    act(async () => {
      isRead = true;
      for (const listener of listeners) listener();
    });
  return { handle, reading, readTheRest };
}

async function openAt(address: string, handle: LogbookHandle) {
  window.location.hash = address;
  render(<App demonstration={false} handle={handle} />);
  await act(() => handle.writeSetting('shown', null));
  return userEvent.setup({ delay: null });
}

async function typeARun(user: ReturnType<typeof userEvent.setup>) {
  await user.selectOptions(screen.getByRole('combobox', { name: 'Analyzer' }), 'Room 2');
  await user.selectOptions(screen.getByRole('combobox', { name: 'Technologist' }), ids.supervisor);
  for (const [label, text] of [
    ['Temperature', '22'],
    ['Barometric pressure', '760'],
    ['Alveolar volume, VA', '3.45'],
    ['DLCO', '0.12'],
  ] as const) {
    await user.clear(screen.getByRole('textbox', { name: label }));
    await user.type(screen.getByRole('textbox', { name: label }), text);
  }
}

describe('while the earlier runs are read', () => {
  it('a run can be typed, and is neither judged nor written', async () => {
    const { handle, reading } = await whileReading();
    const before = await settledEntriesOf(handle);
    const user = await openAt('#/bench', reading);
    await typeARun(user);
    expect(screen.getByText('Reading the earlier runs: the verdict appears in a moment.')).toBeVisible();
    expect(screen.queryByRole('region', { name: /verdict/i })).toBeNull();
    expect(screen.getByText('A run can be recorded as soon as the earlier ones are read.')).toBeVisible();
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    expect(await settledEntriesOf(handle)).toHaveLength(before.length);
  });

  it('what was typed stays when they are there, and is judged by them', async () => {
    const { handle, reading, readTheRest } = await whileReading();
    const user = await openAt('#/bench', reading);
    await typeARun(user);
    await readTheRest();
    expect(screen.getByRole('textbox', { name: 'Alveolar volume, VA' })).toHaveValue('3.45');
    expect(screen.getByRole('region', { name: /verdict/i })).toHaveTextContent('Pass');
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    expect(await screen.findByText('Saved.')).toBeVisible();
    const runs = (await settledEntriesOf(handle)).filter(({ kind }) => kind === 'run-recorded');
    expect(runs).toHaveLength(3);
  });

  it('every other page waits, rather than show a part', async () => {
    const { reading, readTheRest } = await whileReading();
    await openAt('#/review', reading);
    expect(screen.getByText(/Opening the logbook/)).toBeVisible();
    expect(screen.queryByRole('heading', { level: 1 })).toBeNull();
    await readTheRest();
    expect(await screen.findByRole('heading', { level: 1, name: 'Review' })).toBeVisible();
  });
});
