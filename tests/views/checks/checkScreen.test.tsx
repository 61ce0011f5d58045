import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import { usualDescription } from '../../../src/journal/standing.ts';
import CheckScreen from '../../../src/views/checks/checkScreen.tsx';
import { newControlHref } from '../../../src/views/deskRoutes.ts';
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

  it('judges the readings of a volume calibration check while they are typed', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, checkHref('volume-check', ids.analyzer));
    expect(field('Should read')).toHaveValue('3');
    await user.type(field('Slow flow'), '3,02');
    expect(field('Slow flow')).toHaveAccessibleDescription('+0.7 %');
    const live = screen.getByRole('status');
    expect(within(live).getByText('Pass')).toBeInTheDocument();
    expect(live).toHaveTextContent(
      'Furthest +0.7 %, inside ±2.5 %. Published: three flows; two are not read.',
    );
    expect(screen.queryByRole('combobox', { name: 'How it came out' })).not.toBeInTheDocument();
    await user.type(field('Fast flow'), '2.9');
    expect(field('Fast flow')).toHaveAccessibleDescription('−3.3 %, outside');
    await user.type(field('Middle flow'), '3');
    expect(live).toHaveTextContent(/Furthest −3\.3 %, outside ±2\.5 %\.$/);
    await user.type(field(/^Rate.*of the fast stroke/), '6');
    await user.click(press());
    expect(field(/^Rate.*of the slow stroke/)).toHaveFocus();
    expect(field(/^Rate.*of the slow stroke/)).toHaveAccessibleDescription(
      'Type this flow too, or leave out all of them.',
    );
    expect(await checksIn(handle)).toEqual([]);
    await user.type(field(/^Rate.*of the slow stroke/), '0.5');
    await user.type(field(/^Rate.*of the middle stroke/), '2');
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      outcome: 'failed',
      volume: { expectedL: 3, readL: [3.02, 3, 2.9], flowLPerS: [0.5, 2, 6], limitFraction: 0.025 },
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

  it('leads a biological control on to where it is entered', async () => {
    const path = checkHref('biological-control', ids.analyzer, {
      runId: ids.run(0),
      check: 'biological-control',
    });
    const { location } = await opened(await openStore([...staffed(), run(0, 3.4)]), path);
    expect(location.history).toEqual([newControlHref('biological', ids.analyzer, ids.run(0))]);
  });

  it('keeps showing the biological controls that were noted by a word', async () => {
    const noted = checkDone('biological-control', '2026-02-01T08:00:00.000Z', { note: 'B1: 27.4' });
    const { location, container } = await opened(
      await openStore([...staffed(), noted]),
      checkHref('biological-control', ids.analyzer),
    );
    expect(location.history).toEqual([checkHref('biological-control', ids.analyzer)]);
    expect(screen.getByText('B1: 27.4')).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: 'Note this check' })).not.toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'Enter a biological control' })).toHaveAttribute(
      'href',
      newControlHref('biological', ids.analyzer),
    );
    expect(await axe(container)).toEqual([]);
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

describe('gas analyzers against known dilutions', () => {
  const withTracer = () =>
    staffed().map((entry) =>
      entry.kind === 'analyzer-added' ? { ...entry, body: { ...entry.body, tracer: 'He' as const } } : entry,
    );
  const row = (gas: string, place: number) =>
    [field(`Dilution, ${gas}, ${place}`), field(`Reads, ${gas}, ${place}`)] as const;

  it('are judged while points are typed and pasted, and written by gas', async () => {
    const handle = await openStore(withTracer());
    const { user, container } = await opened(handle, checkHref('linearity', ids.analyzer));
    await user.type(field(/^Full scale.*of CO/), '0.3');
    await user.click(row('CO', 1)[0]);
    await user.paste('0\t0.0006\n0.15\t0.1505\n0.3\t0.2995');
    expect(row('CO', 3)[1]).toHaveValue('0.2995');
    const [co, helium] = screen.getAllByRole('status');
    // 0.0006 of 0.3 is 0.20 % by hand.
    expect(co).toHaveTextContent('Furthest +0.20 % of full scale, at 0 %, inside ±0.5 %.');
    expect(helium).toBeEmptyDOMElement();
    expect(await axe(container)).toEqual([]);
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      outcome: 'passed',
      linearity: [
        { gas: 'CO', fullScale: 0.3, points: [{ read: 0.0006 }, { read: 0.1505 }, { read: 0.2995 }] },
      ],
    });
  });

  it('stop at what lacks, beside its field', async () => {
    const handle = await openStore(withTracer());
    const { user, container } = await opened(handle, checkHref('linearity', ids.analyzer));
    await user.type(row('He', 1)[1], '0.4');
    await user.click(press());
    expect(field(/^Full scale.*of He/)).toHaveFocus();
    expect(row('He', 1)[0]).toHaveAccessibleDescription('Type what the dilution holds.');
    expect(await axe(container)).toEqual([]);
    expect(await checksIn(handle)).toEqual([]);
    await user.type(field(/^Full scale.*of He/), '10');
    await user.type(row('He', 1)[0], '0');
    await user.type(row('He', 2)[0], '10');
    await user.type(row('He', 2)[1], '10.02');
    expect(screen.getAllByRole('status')[1]).toHaveTextContent(
      'Furthest +4.00 % of full scale, at 0 %, outside ±0.5 %.',
    );
    await user.click(press());
    expect((await checksIn(handle))[0]?.body).toMatchObject({
      outcome: 'failed',
      linearity: [
        {
          gas: 'He',
          fullScale: 10,
          points: [
            { expected: 0, read: 0.4 },
            { expected: 10, read: 10.02 },
          ],
        },
      ],
    });
  });

  it('take the dilutions of the last time at a press, and never what was read', async () => {
    const before = checkDone('linearity', '2026-02-01T08:00:00.000Z', {
      linearity: [
        {
          gas: 'CO',
          unit: 'ppm',
          fullScale: 3000,
          points: [
            { expected: 0, read: 1 },
            { expected: 3000, read: 2990 },
          ],
          limitFraction: 0.005,
        },
      ],
    });
    const { user } = await opened(
      await openStore([...withTracer(), before]),
      checkHref('linearity', ids.analyzer),
    );
    expect(screen.getByText(/^CO: −0\.33 % of full scale \(3000 ppm\) at the most/)).toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: 'Take the dilutions of 1 Feb 2026, 09:00' }));
    expect(field(/^Full scale.*of CO/)).toHaveValue('3000');
    expect(screen.getByRole('combobox', { name: 'Unit of CO' })).toHaveValue('ppm');
    expect(row('CO', 2)[0]).toHaveValue('3000');
    expect(row('CO', 2)[1]).toHaveValue('');
    expect(screen.queryByRole('button', { name: /^Take the dilutions/ })).not.toBeInTheDocument();
  });

  it('are added and left out, point by point and gas by gas', async () => {
    const { user } = await opened(await openStore(staffed()), checkHref('linearity', ids.analyzer));
    expect(screen.queryByRole('button', { name: /^Leave out/ })).not.toBeInTheDocument();
    await user.selectOptions(screen.getByRole('combobox', { name: 'Another gas' }), 'Methane (CH₄)');
    expect(field(/^Full scale.*of CH₄/)).toBeInTheDocument();
    await user.click(screen.getByRole('button', { name: /^Add a point.*to CH₄/ }));
    expect(row('CH₄', 6)[0]).toHaveFocus();
    await user.click(screen.getByRole('button', { name: 'Remove point 6 of CH₄' }));
    expect(row('CH₄', 5)[0]).toHaveFocus();
    await user.click(screen.getByRole('button', { name: 'Leave out CO' }));
    expect(screen.queryByRole('textbox', { name: /^Full scale.*of CO/ })).not.toBeInTheDocument();
  });
});

describe('a syringe’s calibration', () => {
  const written = async (handle: Parameters<typeof show>[0]) =>
    (await settledEntriesOf(handle)).slice(staffed().length);

  it('writes the certified volume on the syringe’s record in the same save', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await opened(handle, checkHref('syringe-calibration', ids.syringe));
    await user.type(field('Certified volume'), '3.004');
    expect(screen.getByRole('status')).toHaveTextContent(
      '+4 mL, +0.13 % of the nominal volume, inside ±0.5 %.',
    );
    await user.type(field(/^Certificate/), '71-204');
    await user.type(field(/^Issued by/), 'An institute');
    expect(screen.getByRole('checkbox', { name: /on the syringe’s record/ })).toBeChecked();
    expect(screen.getByText(/No certified volume stands there yet/)).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
    await user.click(press());
    expect(await written(handle)).toMatchObject([
      {
        kind: 'check-done',
        body: {
          outcome: 'passed',
          syringe: { measuredL: 3.004, certificate: '71-204', issuedBy: 'An institute' },
        },
      },
      {
        kind: 'syringe-changed',
        by: ids.technologist,
        body: {
          syringeId: ids.syringe,
          certifiedVolumeL: 3.004,
          label: 'Dedicated 3 L syringe',
          reason: 'From its calibration, certificate 71-204.',
        },
      },
    ]);
    const snapshot = handle.getSnapshot();
    if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
    expect(snapshot.logbook.problems).toEqual([]);
    expect(snapshot.logbook.baselineStarts).toEqual([]);
  });

  it('leaves the record as it is where that is unticked, or the volume lies outside', async () => {
    const handle = await openStore(staffed());
    const { user } = await opened(handle, checkHref('syringe-calibration', ids.syringe));
    await user.type(field('Certified volume'), '3.02');
    expect(screen.getByRole('status')).toHaveTextContent(/outside ±0\.5 %/);
    const tick = () => screen.getByRole('checkbox', { name: /on the syringe’s record/ });
    expect(tick()).not.toBeChecked();
    await user.clear(field('Certified volume'));
    await user.type(field('Certified volume'), '3.004');
    expect(tick()).toBeChecked();
    await user.click(tick());
    await user.click(press());
    expect((await written(handle)).map(({ kind }) => kind)).toEqual(['check-done']);
  });
});

it('a barometer is judged in the laboratory’s unit, by the limits that the laboratory adopted', async () => {
  const limits = {
    ...publishedCheckLimits,
    edition: 'House',
    barometer: { fraction: 0.01, source: 'House' },
  };
  const handle = await openStore([
    ...staffed(),
    draft('laboratory-described', {
      ...usualDescription,
      pressureUnit: 'hPa',
      descriptionId: 'description-1',
      reason: 'As we read.',
    }),
    draft('check-limits-adopted', {
      adoptionId: 'adoption-1',
      limits,
      from: '2026-01-01T00:00:00.000Z',
      reason: 'Tighter.',
    }),
  ]);
  const { user } = await opened(handle, checkHref('barometer', ofTheLaboratory));
  expect(screen.getByText(/within 1 % of the reference \(House: House\)/)).toBeInTheDocument();
  await user.type(field('Laboratory’s barometer'), '1001');
  await user.type(field('Reference'), '1013');
  expect(screen.getByRole('status')).toHaveTextContent('−1.18 % of the reference, outside ±1 %.');
  await user.click(press());
  expect((await checksIn(handle))[0]?.body).toMatchObject({
    outcome: 'failed',
    barometer: { unit: 'hPa', read: 1001, reference: 1013, limitFraction: 0.01 },
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
