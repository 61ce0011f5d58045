import 'fake-indexeddb/auto';
import { act, fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { usualDescription } from '../../src/journal/standing.ts';
import { LaboratoryName } from '../../src/views/laboratoryName.tsx';
import { PrintFoot } from '../../src/views/printFoot.tsx';
import { draft } from './laboratory.ts';
import { openStore, show, staffed } from './onLogbook.tsx';

it('the laboratory’s name stands in the top line and the foot of a print once it is known', async () => {
  const handle = await openStore(staffed());
  await show(
    handle,
    <>
      <LaboratoryName />
      <PrintFoot />
    </>,
  );
  fireEvent(window, new Event('beforeprint'));
  expect(screen.getByText(/^Printed .* from the Diffusion QC Logbook\.$/)).toBeInTheDocument();

  const named = { ...usualDescription, name: 'Lung function, North' };
  await act(() =>
    handle.appendEntries([
      draft('laboratory-described', { descriptionId: 'described-one', ...named, reason: 'Its name.' }),
    ]),
  );
  expect(await screen.findByText('Lung function, North')).toBeInTheDocument();
  fireEvent(window, new Event('beforeprint'));
  expect(screen.getByText(/Diffusion QC Logbook of Lung function, North\.$/)).toBeInTheDocument();
});
