import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import CheckScreen from '../../../src/views/checks/checkScreen.tsx';
import { checkHref, ofTheLaboratory } from '../../../src/views/routes.ts';
import { axe } from '../charts/axe.ts';
import { checkDone, ofSyringe } from '../checkDrafts.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';

const opened = (handle: Parameters<typeof show>[0], path: string) =>
  show(handle, <Route component={CheckScreen} path="/check/:check/:about/:runId?/:as?" />, path);
const field = (name: string | RegExp) => screen.getByRole('textbox', { name });
const press = () => screen.getByRole('button', { name: 'Note this check' });
const checksIn = async (handle: Parameters<typeof show>[0]) =>
  (await settledEntriesOf(handle)).filter(({ kind }) => kind === 'check-done');

beforeEach(() => takeInHand(ids.technologist));

describe('noting a check', () => {
  it('writes who made it, how it came out and what was found, and goes back to Today', async () => {
    const handle = await openStore(staffed());
    const { user, location } = await opened(handle, checkHref('linearity', ids.analyzer));
    expect(
      screen.getByRole('heading', { level: 1, name: 'Gas analyzer linearity, Room 2' }),
    ).toBeInTheDocument();
    await user.selectOptions(screen.getByRole('combobox', { name: 'How it came out' }), 'Failed');
    await user.type(field('Note'), 'CO 4 % low at half scale.');
    await user.click(press());
    expect(await checksIn(handle)).toMatchObject([
      {
        by: ids.technologist,
        body: {
          check: 'linearity',
          analyzerId: ids.analyzer,
          syringeId: null,
          technologistId: ids.technologist,
          outcome: 'failed',
          volume: null,
          note: 'CO 4 % low at half scale.',
          investigates: null,
        },
      },
    ]);
    expect(location.history.at(-1)).toBe(`/today/${ids.analyzer}`);
  });

  it('judges the readings of a volume check while they are typed', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, checkHref('volume-check', ids.analyzer));
    expect(field('Should read')).toHaveValue('3');
    await user.type(field('Slow flow'), '3,02');
    const live = screen.getByRole('status');
    expect(within(live).getByText('Pass')).toBeInTheDocument();
    expect(live).toHaveTextContent('Furthest +0.7 %, inside ±2.5 %.');
    expect(screen.queryByRole('combobox', { name: 'How it came out' })).not.toBeInTheDocument();
    await user.type(field('Fast flow'), '2.9');
    expect(live).toHaveTextContent('Furthest −3.3 %, outside ±2.5 %.');
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      outcome: 'failed',
      volume: { expectedL: 3, readL: [3.02, 2.9], limitFraction: 0.025 },
    });
  });

  it('leads a press that writes nothing to the first field that stopped it', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, checkHref('syringe-leak', ids.syringe));
    await user.click(press());
    expect(screen.getByRole('combobox', { name: 'How it came out' })).toHaveFocus();
    expect(screen.getByText('Choose how it came out.')).toBeInTheDocument();
    expect(await checksIn(handle)).toEqual([]);
  });

  it('writes one check where a save that reached the disk was reported as failed', async () => {
    const handle = withOneFailure(await openStore(staffed()), 'after');
    const { user } = await opened(handle, checkHref('syringe-leak', ids.syringe));
    await user.selectOptions(screen.getByRole('combobox', { name: 'How it came out' }), 'Passed');
    await user.click(press());
    expect(await screen.findByText(/What you typed is still here/)).toBeInTheDocument();
    await user.click(press());
    expect(await checksIn(handle)).toHaveLength(1);
  });

  it('asks for a code, never a name, of whoever was tested', async () => {
    const { user } = await opened(await openStore(staffed()), checkHref('biological-control', ids.analyzer));
    expect(field('Note')).toHaveAccessibleDescription(/Never a name, .*no patient data/);
    await user.selectOptions(screen.getByRole('combobox', { name: 'How it came out' }), 'Passed');
    await user.click(press());
    expect(field('Note')).toHaveFocus();
    expect(field('Note')).toHaveAccessibleDescription(/^Say who was tested, by their code/);
  });

  it('keeps the last day of a certificate', async () => {
    const handle = await openStore(staffed());
    const { user, location } = await opened(handle, checkHref('syringe-calibration', ids.syringe));
    await user.selectOptions(screen.getByRole('combobox', { name: 'How it came out' }), 'Passed');
    await user.type(screen.getByLabelText(/^Holds until/), '2199-01-31');
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      validUntil: '2199-01-31',
      syringeId: ids.syringe,
    });
    expect(location.history.at(-1)).toBe('/today/laboratory');
  });

  it('belongs to the investigation that asked for it, and goes back there', async () => {
    const handle = await openStore([...staffed(), run(0, 3.4)]);
    const path = checkHref('volume-check', ids.analyzer, { runId: ids.run(0), check: 'volume-check' });
    const { user, location } = await opened(handle, path);
    expect(screen.getByText(/^Looks into the run of 5 Jan 2026, 09:00 on Room 2\./)).toBeInTheDocument();
    await user.type(field('Slow flow'), '3');
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      investigates: { runId: ids.run(0), check: 'volume-check' },
    });
    expect(location.history.at(-1)).toBe(`/investigation/${ids.run(0)}`);
  });

  it('is noted by itself where the run of its address is not known', async () => {
    await opened(await openStore(staffed()), `/check/linearity/${ids.analyzer}/run-of-elsewhere/other-gas`);
    expect(screen.getByText(/is not in this logbook/)).toBeInTheDocument();
    expect(press()).toBeInTheDocument();
  });

  it.each([
    `/check/simulation/${ids.analyzer}`,
    `/check/linearity/${ids.syringe}`,
    `/check/syringe-leak/${ids.analyzer}`,
    `/check/barometer/${ids.analyzer}`,
    `/check/linearity/nothing-known`,
  ])('refuses %s, which names nothing to check', async (path) => {
    await opened(await openStore(staffed()), path);
    expect(screen.getByText('This address names no check of this logbook.')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Note this check' })).not.toBeInTheDocument();
  });

  it('refuses what is retired, and shows what was noted of it', async () => {
    const handle = await openStore([
      ...staffed(),
      checkDone('syringe-leak', '2026-02-01T08:00:00.000Z', ofSyringe),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'Lost.' }),
    ]);
    await opened(handle, checkHref('syringe-leak', ids.syringe));
    expect(screen.getByText('Dedicated 3 L syringe is retired.')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Note this check' })).not.toBeInTheDocument();
    expect(screen.getByText('As it should be.')).toBeInTheDocument();
  });
});

describe('what was noted before', () => {
  it('stands newest first, and a voided one stays, struck through with its reason', async () => {
    const handle = await openStore([
      ...staffed(),
      checkDone('barometer', '2026-02-01T08:00:00.000Z', {
        analyzerId: null,
        note: 'first',
        checkId: 'the-first-check',
      }),
      checkDone('barometer', '2026-02-08T08:00:00.000Z', { analyzerId: null, note: 'second' }),
      checkDone('linearity', '2026-02-09T08:00:00.000Z', { note: 'of another kind' }),
    ]);
    const { user } = await opened(handle, checkHref('barometer', ofTheLaboratory));
    expect(screen.getAllByText(/^(first|second|of another kind)$/).map((note) => note.textContent)).toEqual([
      'second',
      'first',
    ]);
    await user.click(screen.getByRole('button', { name: /^Void….*1 Feb 2026/ }));
    await user.type(screen.getByRole('textbox', { name: 'Reason' }), 'Read the wrong one.');
    await user.click(screen.getByRole('button', { name: 'Void check' }));
    expect(await screen.findByText(/^Voided .*, OF: Read the wrong one\.$/)).toBeInTheDocument();
    expect(screen.getByText('1 Feb 2026, 09:00').closest('s')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: /^Void….*1 Feb 2026/ })).not.toBeInTheDocument();
  });

  it('shows the newest twenty of many, and the others when asked', async () => {
    const many = Array.from({ length: 25 }, (_, index) =>
      checkDone('volume-check', new Date(Date.UTC(2026, 0, 2 + index, 8)).toISOString(), {
        note: `no. ${index}`,
      }),
    );
    const { user } = await opened(
      await openStore([...staffed(), ...many]),
      checkHref('volume-check', ids.analyzer),
    );
    expect(screen.getAllByText(/^no\. /)).toHaveLength(20);
    expect(screen.getByText('no. 24')).toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: 'Show 5 earlier ones' }));
    expect(screen.getAllByText(/^no\. /)).toHaveLength(25);
  });

  it('has nothing that axe finds wrong', async () => {
    const handle = await openStore([
      ...staffed(),
      checkDone('volume-check', '2026-02-01T08:00:00.000Z', {
        volume: { expectedL: 3, readL: [3.02, 2.99], limitFraction: 0.025 },
      }),
    ]);
    const { container, user } = await opened(handle, checkHref('volume-check', ids.analyzer));
    await user.click(press());
    expect(await axe(container)).toEqual([]);
  });
});
