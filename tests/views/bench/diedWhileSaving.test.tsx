import 'fake-indexeddb/auto';
import { screen, waitFor } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { useKeptDraft } from '../../../src/views/keptDraft.ts';
import { emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import { ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed } from '../onLogbook.tsx';

/** What the form held when the browser died; the run was to be recorded under the id of run 7. */
const keptDraft = {
  draft: {
    ...emptyDraft,
    analyzerId: ids.analyzer,
    technologistId: ids.supervisor,
    syringeId: ids.syringe,
    temperature: '22',
    pressure: '760',
    va: '3.45',
    dlco: '0.12',
  },
  recordingAs: ids.run(7),
};
function ReloadedBench() {
  useKeptDraft();
  return <BenchScreen />;
}

const va = () => screen.getByRole('textbox', { name: 'Alveolar volume, VA' });

describe('a browser that died while a run was being saved', () => {
  it('shows the run as recorded when it had reached the disk, and does not ask for it again', async () => {
    const handle = await openStore([...staffed(), run(7, 3.45)]);
    await handle.writeSetting('bench-draft', keptDraft);
    await show(handle, <ReloadedBench />);
    expect(await screen.findByText('Saved.')).toBeInTheDocument();
    expect(va()).toHaveDisplayValue('');
    expect(screen.getByRole('combobox', { name: 'Analyzer' })).toHaveDisplayValue('Room 2');
  });

  it('has the typed values again when it had not, and records them as that very run', async () => {
    const handle = await openStore(staffed());
    await handle.writeSetting('bench-draft', keptDraft);
    const { user } = await show(handle, <ReloadedBench />);
    await waitFor(() => expect(va()).toHaveDisplayValue('3.45'));
    await user.click(screen.getByRole('button', { name: 'Record run' }));
    await screen.findByText('Saved.');
    const runs = (await settledEntriesOf(handle)).filter(({ kind }) => kind === 'run-recorded');
    expect(runs.map(({ body }) => body.runId)).toEqual([ids.run(7)]);
  });
});
