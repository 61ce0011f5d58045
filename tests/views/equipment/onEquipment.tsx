/** The equipment screen on a store, and what its tests press and read. `fake-indexeddb/auto` comes before it. */
import { screen } from '@testing-library/react';
import { Route } from 'wouter';
import EquipmentScreen from '../../../src/views/equipment/equipmentScreen.tsx';
import { ids } from '../laboratory.ts';
import { settledEntriesOf, show, staffed } from '../onLogbook.tsx';

export const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
export const choice = (name: string | RegExp) => screen.getByRole('combobox', { name });
export const button = (name: string | RegExp) => screen.getByRole('button', { name });
export const heading = (name: string) => screen.findByRole('heading', { level: 1, name });

export const onEquipment = (
  handle: Parameters<typeof show>[0],
  path = `/equipment/analyzer/${ids.analyzer}`,
) => show(handle, <Route component={EquipmentScreen} path="/equipment/*?" />, path);

/** What was written since the store was opened with so many entries. */
export async function writtenAfter(count: number, handle: Parameters<typeof show>[0]) {
  return (await settledEntriesOf(handle)).slice(count);
}

export const kindsAfter = async (count: number, handle: Parameters<typeof show>[0]) =>
  (await writtenAfter(count, handle)).map(({ kind }) => kind);

/** The kinds of what was written in a laboratory that was `staffed()`. */
export const kindsWritten = (handle: Parameters<typeof show>[0]) => kindsAfter(staffed().length, handle);
