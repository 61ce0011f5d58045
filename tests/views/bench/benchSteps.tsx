/** What a hand does at the bench: shared by the tests of its form. A test imports `fake-indexeddb/auto` before this. */
import { screen } from '@testing-library/react';
import type { UserEvent } from '@testing-library/user-event';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { useKeptDraft } from '../../../src/views/keptDraft.ts';
import { ids } from '../laboratory.ts';
import { entriesOf } from '../onLogbook.tsx';

/** The bench as the app draws it: on what was kept of the form. */
export function ReloadedBench() {
  useKeptDraft();
  return <BenchScreen />;
}

export const field = (label: string | RegExp) => screen.getByRole('textbox', { name: label });
export const choice = (label: string) => screen.getByRole('combobox', { name: label });
export const press = (user: UserEvent, name: string | RegExp) =>
  user.click(screen.getByRole('button', { name }));

export async function choose(user: UserEvent, analyzer = 'Room 2') {
  await user.selectOptions(choice('Analyzer'), analyzer);
  await user.selectOptions(choice('Technologist'), ids.supervisor);
}

export async function type(user: UserEvent, typed: Record<string, string>) {
  for (const [label, text] of Object.entries(typed)) {
    await user.clear(field(label));
    await user.type(field(label), text);
  }
}

/** 3.45 L BTPS at 22 °C and 760 mmHg. */
export const room = { Temperature: '22', 'Barometric pressure': '760' };
export const readings = { 'Alveolar volume, VA': '3.45', DLCO: '0.12' };

export async function record(user: UserEvent) {
  await press(user, 'Record run');
  // A computer that is busy with other tests takes its time.
  await screen.findByText('Saved.', {}, { timeout: 5000 });
}

export const runsIn = (handle: Parameters<typeof entriesOf>[0]) =>
  entriesOf(handle).filter(({ kind }) => kind === 'run-recorded');
