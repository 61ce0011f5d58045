import 'fake-indexeddb/auto';

import { act, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { usualDescription } from '../../src/journal/standing.ts';
import { setWriting, usualWriting, writingInForce } from '../../src/views/parts/writing.ts';
import LastRuns from '../../src/views/runForm/lastRuns.tsx';
import { draft, ids, run } from './laboratory.ts';
import { openStore, show, staffed } from './onLogbook.tsx';

afterEach(() => setWriting(usualWriting));

const described = (descriptionId: string, changes: Partial<typeof usualDescription>) =>
  draft('laboratory-described', {
    descriptionId,
    ...usualDescription,
    ...changes,
    reason: 'As the laboratory writes.',
  });

describe('a logbook whose laboratory has described how it writes', () => {
  it('is written so from the first drawing on, and anew once it describes it otherwise', async () => {
    const handle = await openStore([
      ...staffed(),
      described('described-one', { decimalMark: 'comma', dateForm: 'dd.mm.yyyy' }),
      run(1, 3.45),
    ]);
    await show(handle, <LastRuns analyzerId={ids.analyzer} route="patient-test" />);
    // Week 1 is that of 12 January 2026; Oslo is an hour ahead of UTC.
    expect(screen.getByText('12.01.2026, 09:00')).toBeInTheDocument();
    expect(screen.getByRole('row', { name: /^12\.01\.2026.* 3,450 /u })).toBeInTheDocument();
    await act(() =>
      handle.appendEntries([described('described-two', { dateForm: 'yyyy-mm-dd', clock: '12' })]),
    );
    expect(await screen.findByText('2026-01-12, 9:00 am')).toBeInTheDocument();
    expect(screen.getByRole('row', { name: /^2026-01-12.* 3\.450 /u })).toBeInTheDocument();
  });

  it('leaves nothing of it behind in the next logbook', async () => {
    const first = await openStore([...staffed(), described('described-one', { decimalMark: 'comma' })]);
    const { unmount } = await show(first, null);
    expect(writingInForce().decimalMark).toBe('comma');
    unmount();
    await show(await openStore(staffed()), null);
    expect(writingInForce()).toMatchObject(usualWriting);
  });
});
