/** The controls' screen on a real store, as a technologist uses it. */
import { screen } from '@testing-library/react';
import { beforeEach } from 'vitest';
import { Route } from 'wouter';
import ControlScreen from '../../../src/views/control/controlScreen.tsx';
import { useKeptControls } from '../../../src/views/control/keptControls.ts';
import { settledEntriesOf, show } from '../onLogbook.tsx';

type Handle = Parameters<typeof show>[0];

/** What a reload takes with it. */
const fresh = useKeptControls.getState();
beforeEach(() => useKeptControls.setState(fresh, true));

export const openAt = (handle: Handle, path: string) =>
  show(handle, <Route component={ControlScreen} path="/control/*" />, path);

export const field = (name: string | RegExp) => screen.getByRole('textbox', { name });
export const choice = (name: string | RegExp) => screen.getByRole('combobox', { name });
export const press = (name: string | RegExp) => screen.getByRole('button', { name });
export const live = () => screen.getByRole('region', { name: 'Verdict while typing' });

export const controlsIn = async (handle: Handle) =>
  (await settledEntriesOf(handle)).filter(({ kind }) => kind.startsWith('control-'));
