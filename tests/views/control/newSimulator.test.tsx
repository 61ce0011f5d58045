import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { newControlHref } from '../../../src/views/deskRoutes.ts';
import { axe } from '../charts/axe.ts';
import { session } from '../controlDrafts.ts';
import { ids, run } from '../laboratory.ts';
import { openStore, staffed, takeInHand } from '../onLogbook.tsx';
import { controlsIn, live, openAt, press } from './onControls.tsx';

const path = newControlHref('simulator', ids.analyzer);
const level = (name: 'Low level' | 'High level') => within(screen.getByRole('group', { name }));
const inLevel = (name: 'Low level' | 'High level', label: string | RegExp) =>
  level(name).getByRole('textbox', { name: label });

beforeEach(() => takeInHand(ids.technologist));

describe('a session with the simulator', () => {
  it('is judged level by level while it is typed, with a target computed from the gases', async () => {
    const handle = await openStore(staffed());
    const { user } = await openAt(handle, path);
    await user.type(inLevel('Low level', 'Target DLCO'), '14');
    await user.type(inLevel('Low level', 'DLCO as reported'), '14,2');
    expect(live()).toHaveTextContent('Still to come: the high target, DLCO of the high level.');

    await user.selectOptions(
      level('High level').getByRole('combobox', { name: 'Target' }),
      'Computed from the gases',
    );
    for (const [label, text] of [
      ['Inspired CO', '0.300'],
      ['Inspired tracer', '0.300'],
      ['Alveolar CO', '0.120'],
      ['Alveolar tracer', '0.210'],
      ['Simulated VA', '4.5'],
      ['Breath-hold time', '10'],
      ['Barometric pressure', '760'],
    ] as const) {
      fireEvent.change(inLevel('High level', label), { target: { value: text } });
    }
    // ln(0.7/0.4) · 60000/760 · 273.15/310.15 · 4.5 L / 10 s, by hand.
    expect(level('High level').getByRole('status')).toHaveTextContent(
      'Target 17.51 mL/min/mmHg, by the single-breath equation',
    );
    await user.type(inLevel('High level', 'DLCO as reported'), '19.6');
    expect(within(live()).getByText('Fail')).toBeInTheDocument();
    expect(live()).toHaveTextContent(/14\.20 mL\/min\/mmHg, 0\.20 above its target, 14\.00: inside/);
    expect(live()).toHaveTextContent(/19\.60 mL\/min\/mmHg, 2\.09 above its target, 17\.51: outside/);

    await user.click(press('Record session'));
    await waitFor(() => expect(screen.getByText(/^Saved\. Session of/)).toHaveFocus());
    const [written] = await controlsIn(handle);
    expect(written?.body).toMatchObject({
      control: {
        kind: 'simulator',
        levels: [
          { level: 'low', targetMlMinMmHg: 14, basis: { kind: 'certificate' }, reading: { dlco: 14.2 } },
          { level: 'high', basis: { kind: 'computed', inspired: { co: 0.003, tracer: 0.003 } } },
        ],
      },
      judged: {
        word: 'fail',
        series: [
          { name: 'low', withinPublished: true },
          { name: 'high', withinPublished: false },
        ],
      },
    });
    expect(screen.getByRole('link', { name: 'High level' })).toHaveAttribute(
      'href',
      `/controls/${ids.analyzer}/simulator/high`,
    );
  });

  it('may have one level', async () => {
    const handle = await openStore(staffed());
    const { user } = await openAt(handle, path);
    await user.click(screen.getByRole('checkbox', { name: 'This session has a low level' }));
    expect(level('Low level').queryByRole('textbox')).not.toBeInTheDocument();
    await user.type(inLevel('High level', 'Target DLCO'), '28');
    await user.type(inLevel('High level', 'DLCO as reported'), '27.5');
    await user.click(press('Record session'));
    expect((await controlsIn(handle))[0]?.body).toMatchObject({ control: { levels: [{ level: 'high' }] } });
  });

  it('says where no level is ticked', async () => {
    const { user } = await openAt(await openStore(staffed()), path);
    await user.click(screen.getByRole('checkbox', { name: 'This session has a low level' }));
    await user.click(screen.getByRole('checkbox', { name: 'This session has a high level' }));
    await user.click(press('Record session'));
    expect(screen.getByRole('alert')).toHaveTextContent('Tick the level, or both, that this session has.');
  });

  it('refuses gases that cannot be, beside the field', async () => {
    const { user } = await openAt(await openStore(staffed()), path);
    await user.selectOptions(
      level('Low level').getByRole('combobox', { name: 'Target' }),
      'Computed from the gases',
    );
    await user.type(inLevel('Low level', 'Inspired CO'), '0.3');
    await user.type(inLevel('Low level', 'Inspired tracer'), '0.3');
    await user.type(inLevel('Low level', 'Alveolar CO'), '0.2');
    await user.type(inLevel('Low level', 'Alveolar tracer'), '0.4');
    await user.tab();
    expect(inLevel('Low level', 'Alveolar tracer')).toHaveAccessibleDescription(
      /the tracer can only be diluted/,
    );
    expect(inLevel('Low level', 'Alveolar CO')).not.toBeInvalid();
  });

  it('carries the last session’s targets, says so, and no longer once they are touched', async () => {
    const handle = await openStore([...staffed(), session(0, { low: 0.1 })]);
    const { user } = await openAt(handle, path);
    expect(inLevel('Low level', 'Target DLCO')).toHaveValue('15');
    expect(inLevel('Low level', 'DLCO as reported')).toHaveValue('');
    expect(screen.getByRole('checkbox', { name: 'This session has a high level' })).not.toBeChecked();
    const said = 'Target carried from the session of 5 Jan 2026. Is it still the same gas?';
    expect(level('Low level').getByText(said)).toBeInTheDocument();
    await user.type(inLevel('Low level', 'DLCO as reported'), '15.2');
    expect(level('Low level').getByText(said)).toBeInTheDocument();
    await user.type(inLevel('Low level', 'Target DLCO'), '.1');
    expect(level('Low level').queryByText(said)).not.toBeInTheDocument();
  });

  it('says that the levels part within a session', async () => {
    // Mean 0 and SD 0.21 in both levels.
    const before = Array.from({ length: 10 }, (_, index) =>
      session(index, index % 2 === 0 ? { low: 0.2, high: 0.2 } : { low: -0.2, high: -0.2 }),
    );
    const { user } = await openAt(await openStore([...staffed(), ...before]), path);
    await user.type(inLevel('Low level', 'DLCO as reported'), '15.5');
    await user.type(inLevel('High level', 'DLCO as reported'), '34.5');
    expect(live()).toHaveTextContent(
      'R-4s: the two levels of the session lie beyond 2 SD on opposite sides.',
    );
    expect(within(live()).getByText('Fail')).toBeInTheDocument();
  });

  it('looks into a failure as a check of the gas', async () => {
    const handle = await openStore([...staffed(), run(0, 3.4), session(0, { low: 0.1 })]);
    const { user } = await openAt(handle, newControlHref('simulator', ids.analyzer, ids.run(0)));
    await user.type(inLevel('Low level', 'DLCO as reported'), '15.2');
    await user.click(press('Record session'));
    expect((await controlsIn(handle)).at(-1)?.body).toMatchObject({
      control: { investigates: { runId: ids.run(0), check: 'other-gas' } },
    });
  });

  it('has nothing that axe finds wrong, computed and with its errors', async () => {
    const { container, user } = await openAt(
      await openStore([...staffed(), session(0, { low: 0.1, high: 0 })]),
      path,
    );
    await user.selectOptions(
      level('High level').getByRole('combobox', { name: 'Target' }),
      'Computed from the gases',
    );
    await user.click(press('Record session'));
    expect(await axe(container)).toEqual([]);
  });
});
