import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { BenchScreen } from '../../../src/views/bench/benchScreen.tsx';
import { syringeAdded } from '../../journal/fixtures.ts';
import { draft, ids } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';
import { choose, field, press, readings, record, room, runsIn, type } from './benchSteps.tsx';

afterEach(() => sessionStorage.clear());

const report = ['Patient: Example, Ada', 'VA (BTPS)\t3,45\tL', 'TLCO\t0,040\tmmol/min/kPa', 'PB 758'].join(
  '\n',
);

describe('a pasted report', () => {
  it('is shown, not filled in, until a hand says so; then each field says where it comes from', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await choose(user);
    await user.click(field('Alveolar volume, VA'));
    await user.paste(report);
    const taken = await screen.findByRole('table', { name: 'Understood of the report' });
    expect(
      within(taken)
        .getAllByRole('row')
        .map(({ textContent }) => textContent),
    ).toEqual(['VA3,45 Lfrom “VA (BTPS)”, line 2', 'DLCO0,040 mmol/min/kPafrom “TLCO”, line 3']);
    expect(screen.getByText('Not taken: “PB”, line 4: no unit is printed.')).toBeInTheDocument();
    expect(screen.getByText('1 line passed over that may name a person.')).toBeInTheDocument();
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('');
    await press(user, 'Use these');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('3,45');
    expect(field('Alveolar volume, VA')).toHaveAccessibleDescription('from the report');
    expect(screen.getByRole('combobox', { name: 'Unit of DLCO' })).toHaveDisplayValue('mmol/min/kPa');
    // What it did not say is next.
    expect(field('Temperature')).toHaveFocus();
    await type(user, { 'Alveolar volume, VA': '3.46' });
    expect(field('Alveolar volume, VA')).not.toHaveAccessibleDescription();
  });

  it('of one line goes into its field, and one typed into the box is read as it stands', async () => {
    const { user } = await show(await openStore(staffed()), <BenchScreen />);
    await user.click(field('Alveolar volume, VA'));
    await user.paste('3.41');
    expect(field('Alveolar volume, VA')).toHaveDisplayValue('3.41');
    await press(user, 'Paste a report…');
    const box = await screen.findByRole('textbox', { name: 'Text of the report' });
    expect(box).toHaveFocus();
    await user.paste('Temp 22.4 °C\nnothing');
    expect(screen.getByText('1 line not understood.')).toBeInTheDocument();
    await press(user, 'Leave the report');
    expect(field('Temperature')).toHaveDisplayValue('');
  });
});

describe('what is left on the syringe', () => {
  const known = () => [
    ...staffed(),
    draft('syringe-changed', {
      ...syringeAdded,
      attachments: [{ name: 'Filter', volumeL: 0.035 }],
      reason: 'Its filter was measured.',
    }),
  ];

  it('is ticked or typed, counted with the dead space, and kept with the run', async () => {
    const handle = await openStore(known());
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    await press(user, 'Hose or filter…');
    await user.click(await screen.findByRole('checkbox', { name: 'Filter, 35 mL' }));
    await press(user, 'Something else…');
    await user.type(field('What it is'), 'Hose');
    await user.type(field('Its volume'), '80');
    await press(user, 'Done');
    expect(screen.getByText(/Filter, 35 mL; Hose, 80 mL/)).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'Hose or filter…' })).toHaveFocus();
    await type(user, { ...room, ...readings });
    await record(user);
    expect(runsIn(handle)[0]?.body).toMatchObject({
      attached: [
        { name: 'Filter', volumeL: 0.035 },
        { name: 'Hose', volumeL: 0.08 },
      ],
      // 110 mL of its own.
      syringe: { deadSpaceL: 0.225 },
    });
    expect(screen.getByText(/Filter, 35 mL; Hose, 80 mL/)).toHaveTextContent(/carried from Room 2/);
  });

  it('says what is wrong with it, and nothing is written', async () => {
    const handle = await openStore(known());
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    await type(user, { ...room, ...readings });
    await press(user, 'Hose or filter…');
    await user.click(await screen.findByRole('button', { name: 'Something else…' }));
    await user.type(field('What it is'), 'Hose');
    await user.type(field('Its volume'), '0.08');
    await press(user, 'Record run');
    expect(field('Its volume')).toHaveAccessibleDescription(
      /Hose: 0.08 mL cannot be: it looks like L \(80 mL\)/,
    );
    expect(field('Its volume')).toHaveFocus();
    expect(runsIn(handle)).toHaveLength(0);
    await press(user, 'Take it off');
    await record(user);
    expect(runsIn(handle)[0]?.body).not.toHaveProperty('attached');
  });
});

it('a volume that was missing can be typed to its last digit', async () => {
  const handle = await openStore(staffed());
  const { user } = await show(handle, <BenchScreen />);
  await choose(user);
  await type(user, { ...room, ...readings });
  await press(user, 'Hose or filter…');
  await user.click(await screen.findByRole('button', { name: 'Add a hose or filter…' }));
  await user.type(field('What it is'), 'Hose');
  await press(user, 'Done');
  await press(user, 'Record run');
  await user.type(await screen.findByRole('textbox', { name: 'Its volume' }), '80');
  await press(user, 'Done');
  await record(user);
  expect(runsIn(handle)[0]?.body).toMatchObject({ attached: [{ name: 'Hose', volumeL: 0.08 }] });
});

describe('what stands against a run', () => {
  const longAgo = '2026-01-10T08:00:00.000Z';

  it('an analyzer out of service is warned of and asked about, never refused', async () => {
    const handle = await openStore([
      ...staffed(),
      draft('service-set', {
        serviceId: 'service-of-january',
        analyzerId: ids.analyzer,
        inService: false,
        from: longAgo,
        reason: 'Valve sticks.',
      }),
    ]);
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    expect(screen.getByRole('combobox', { name: 'Analyzer' })).toHaveAccessibleDescription(
      /Room 2 is out of service since 10 Jan 2026, .*: Valve sticks\./,
    );
    await type(user, { ...room, ...readings });
    await press(user, 'Record run');
    expect(screen.getByRole('alert')).toHaveTextContent(/out of service since 10 Jan 2026/);
    expect(runsIn(handle)).toHaveLength(0);
    await press(user, 'Record it as a run after service');
    await screen.findByText('Saved.');
    expect(runsIn(handle)[0]?.body.reason).toBe('after-service');
  });

  it('a dropped syringe and an expired cylinder are named with their day', async () => {
    const handle = await openStore([
      ...staffed(),
      draft('syringe-dropped', {
        dropId: 'the-drop-of-january',
        syringeId: ids.syringe,
        droppedAt: longAgo,
        description: 'Off the trolley.',
      }),
      draft('cylinder-added', {
        cylinderId: 'cylinder-number-1',
        label: 'Test gas 1',
        serial: '',
        contents: [{ gas: 'CO', fraction: 0.003 }],
        expiresOn: '2026-01-31',
      }),
      draft('cylinder-fitted', {
        fittingId: 'fitting-number-1',
        analyzerId: ids.analyzer,
        cylinderId: 'cylinder-number-1',
        fittedAt: longAgo,
      }),
    ]);
    const { user } = await show(handle, <BenchScreen />);
    await choose(user);
    expect(screen.getByRole('combobox', { name: 'Syringe' })).toHaveAccessibleDescription(
      /was dropped on 10 Jan 2026 and not checked for leaks since/,
    );
    expect(screen.getByRole('combobox', { name: 'Analyzer' })).toHaveAccessibleDescription(
      /Its cylinder Test gas 1 has expired: its last day was 31 Jan 2026/,
    );
  });
});
