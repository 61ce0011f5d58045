import { act, renderHook } from '@testing-library/react';
import 'fake-indexeddb/auto';
import type { ReactNode } from 'react';
import { beforeEach, describe, expect, it } from 'vitest';
import { LogbookProvider } from '../../../src/views/logbookContext.tsx';
import { useWriter } from '../../../src/views/parts/useWriter.ts';
import { useScreenState } from '../../../src/views/screenState.ts';
import { ids } from '../laboratory.ts';
import { openStore, staffed, takeInHand } from '../onLogbook.tsx';

async function writers() {
  const handle = await openStore(staffed());
  const wrapper = ({ children }: { children: ReactNode }) => (
    <LogbookProvider
      demonstration={false}
      failed={({ message }) => message}
      handle={handle}
      loading="loading"
    >
      {children}
    </LogbookProvider>
  );
  const { result } = renderHook(() => ({ anybody: useWriter(), supervisor: useWriter('supervisor') }), {
    wrapper,
  });
  return result;
}
const inHand = () => useScreenState.getState().benchDraft.technologistId;

describe('who writes', () => {
  beforeEach(() => takeInHand(ids.technologist));

  it('is the person in hand, who may not write what needs a supervisor', async () => {
    const { current } = await writers();
    expect(current.anybody).toMatchObject({ id: ids.technologist, canWrite: true });
    expect(current.supervisor).toMatchObject({ id: ids.technologist, canWrite: false });
  });

  it('is the supervisor for what is theirs, while the next run stays the technologist’s', async () => {
    const result = await writers();
    act(() => result.current.supervisor.choose(ids.supervisor));
    expect(result.current.supervisor).toMatchObject({ id: ids.supervisor, canWrite: true });
    expect(result.current.anybody.id).toBe(ids.technologist);
    expect(inHand()).toBe(ids.technologist);
  });

  it('asks for the supervisor anew once somebody else is in hand', async () => {
    const result = await writers();
    act(() => result.current.supervisor.choose(ids.supervisor));
    act(() => result.current.anybody.choose(''));
    expect(result.current.supervisor).toMatchObject({ id: '', canWrite: false });
  });
});
