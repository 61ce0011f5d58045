import 'fake-indexeddb/auto';
import { act, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import type { EntryBody } from '../../../src/journal/entries.ts';
import { usualDescription } from '../../../src/journal/standing.ts';
import LaboratoryScreen from '../../../src/views/laboratory/laboratoryScreen.tsx';
import { setWriting, usualWriting } from '../../../src/views/parts/writing.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids } from '../laboratory.ts';
import { openStore, settledEntriesOf, show, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { limitsAdopted, policySet, policyWith } from '../settingDrafts.ts';

const textbox = (name: string | RegExp) => screen.getByRole('textbox', { name });
const choice = (name: string | RegExp) => screen.getByRole('combobox', { name });
const button = (name: string | RegExp) => screen.getByRole('button', { name });
const inForce = (name: string) => {
  const term = screen.getAllByText(name, { selector: '.figures dt' })[0];
  if (!term?.parentElement) throw new Error(`nothing is called ${name}`);
  return within(term.parentElement).getByRole('definition');
};

const onLaboratory = (handle: Parameters<typeof show>[0], path: string) =>
  show(handle, <Route component={LaboratoryScreen} path="/laboratory/*?" />, path);

const before = staffed().length;
const written = async (handle: Parameters<typeof show>[0]) => (await settledEntriesOf(handle)).slice(before);

const onPolicy = `/laboratory/policy/${ids.analyzer}`;
const closed = (name: RegExp) => screen.findByRole('button', { name });

beforeEach(() => takeInHand(ids.supervisor));
afterEach(() => setWriting(usualWriting));

describe('the form of writing', () => {
  it('is changed with a reason, and every page follows at once', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onLaboratory(handle, '/laboratory');
    expect(screen.getByText(/Nobody has set it/)).toBeInTheDocument();
    await user.click(button('Change name or form of writing…'));
    expect(await axe(container)).toEqual([]);
    await user.type(textbox(/Name of the laboratory/), 'Lung function, North');
    await user.selectOptions(choice('Decimal mark'), 'comma');
    await user.selectOptions(choice('Dates'), 'yyyy-mm-dd');
    await user.selectOptions(choice('Pressure'), 'hPa');
    await user.type(textbox('Reason'), 'As the hospital writes.');
    await user.click(button('Save the change'));
    await closed(/Change name/);
    const [entry] = await written(handle);
    expect(entry).toMatchObject({
      kind: 'laboratory-described',
      by: ids.supervisor,
      body: {
        ...usualDescription,
        name: 'Lung function, North',
        decimalMark: 'comma',
        dateForm: 'yyyy-mm-dd',
        pressureUnit: 'hPa',
        reason: 'As the hospital writes.',
      },
    });
    expect(inForce('Decimal mark')).toHaveTextContent('comma, 3,12 L');
    expect(screen.getByText(/^Set by .* since \d{4}-\d\d-\d\d, /)).toBeInTheDocument();
    expect(screen.getByRole('heading', { name: 'History' })).toBeInTheDocument();
    expect(screen.getByText('25 Nov 2026', { selector: 's, s *' })).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
  });

  it('says which dates can be read in two ways', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, '/laboratory/writing');
    await user.click(button(/Change name/));
    expect(choice('Dates')).not.toHaveAccessibleDescription(/two ways/);
    await user.selectOptions(choice('Dates'), 'mm/dd/yyyy');
    expect(choice('Dates')).toHaveAccessibleDescription(/read in two ways/);
  });
});

describe('what stops a change', () => {
  it('is a reason that is missing', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, '/laboratory/limits');
    await user.click(button(/Adopt another/));
    await user.clear(textbox(/^VA within ±/));
    await user.type(textbox(/^VA within ±/), '200');
    await user.clear(textbox('Edition'));
    await user.type(textbox('Edition'), 'House 2026');
    await user.clear(textbox('Source'));
    await user.type(textbox('Source'), 'Procedure of the house');
    await user.click(button('Adopt from now on'));
    expect(textbox('Reason')).toHaveFocus();
    expect(textbox('Reason')).toHaveAccessibleDescription(/Say why/);
    expect(await written(handle)).toEqual([]);
    await user.type(textbox('Reason'), 'Tighter, by decision of the house.');
    await user.click(button('Adopt from now on'));
    await closed(/Adopt another/);
    expect(await written(handle)).toMatchObject([
      { kind: 'limits-adopted', body: { limits: { edition: 'House 2026', vaToleranceL: 0.2 } } },
    ]);
  });

  it('is a technologist: only supervisors can be chosen', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, '/laboratory/schedule/simulation');
    await user.click(button(/Set the schedule/));
    await user.clear(textbox('Every'));
    await user.type(textbox('Every'), '2');
    await user.type(textbox('Reason'), 'Fewer patients.');
    expect(within(choice('Supervisor')).queryByRole('option', { name: /Orla Fenn/ })).toBeNull();
    await user.click(button('Set the schedule'));
    expect(choice('Supervisor')).toHaveAccessibleDescription(/needs a supervisor/);
    expect(await written(handle)).toEqual([]);
  });

  it.each([
    ['/laboratory/writing', /Change name/, 'Save the change'],
    ['/laboratory/limits', /Adopt another/, 'Adopt from now on'],
    ['/laboratory/check-limits', /Adopt other limits/, 'Adopt from now on'],
    [onPolicy, /Set the policy/, 'Set from now on'],
  ])('is that on %s nothing is changed', async (path, opens, saves) => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, path);
    await user.click(button(opens));
    await user.type(textbox('Reason'), 'No reason.');
    await user.click(button(saves));
    expect(screen.getByText('Nothing is changed: this is in force already.')).toBeInTheDocument();
    expect(await written(handle)).toEqual([]);
  });
});

describe('a schedule', () => {
  it('becomes the laboratory’s own even where it is the usual one, and only once', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, '/laboratory/schedule/biological-control');
    const make = async () => {
      await user.click(button(/Set the schedule…/));
      await user.type(textbox('Reason'), 'We make it weekly.');
      await user.click(button('Set the schedule'));
    };
    await make();
    await closed(/Set the schedule…/);
    expect(inForce('Set by')).toHaveTextContent('this laboratory');
    await make();
    expect(screen.getByText(/Nothing is changed/)).toBeInTheDocument();
    expect(await written(handle)).toHaveLength(1);
  });

  it('of what is not made here says what is then missed, and asks for no number', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onLaboratory(handle, '/laboratory/schedule/linearity');
    await user.click(button(/Set the schedule/));
    await user.selectOptions(choice('Made'), 'not-here');
    expect(screen.queryByRole('textbox', { name: 'Every' })).toBeNull();
    expect(
      screen.getByText(/Nothing will say here that a gas analyzer linearity is due/),
    ).toBeInTheDocument();
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('Reason'), 'The service contract covers it.');
    await user.click(button('Set the schedule'));
    await closed(/Set the schedule…/);
    expect(inForce('Made')).toHaveTextContent('not made here');
    expect((await written(handle))[0]?.body).toMatchObject({ isMade: false, every: null });
  });
});

describe('published limits', () => {
  it('that are wider than the published ones are warned of, and need an edition and a source', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, '/laboratory/limits');
    await user.click(button(/Adopt another/));
    await user.clear(textbox(/^VA within ±/));
    await user.type(textbox(/^VA within ±/), '400');
    await user.type(textbox('Reason'), 'An older analyzer.');
    await user.click(button('Adopt from now on'));
    expect(textbox('Edition')).toHaveAccessibleDescription(/name the edition that they are of/);
    expect(textbox('Source')).toHaveAccessibleDescription(/name the one that they stand in/);
    await user.type(textbox('Edition'), ', house');
    await user.type(textbox('Source'), ', as procedure 12 has it');
    expect(screen.getByText(/^Wider than ERS\/ATS 2017: VA ±400 mL\./)).toBeInTheDocument();
    await user.click(button('Adopt from now on'));
    await closed(/Adopt another/);
    expect(screen.getByText(/^Adopted by .*An older analyzer\.$/)).toBeInTheDocument();
  });

  it('go back to the built-in edition at one press', async () => {
    const handle = await openStore([
      ...staffed(),
      limitsAdopted('2026-02-01T00:00:00.000Z', { vaToleranceL: 0.2 }),
    ]);
    const { user } = await onLaboratory(handle, '/laboratory/limits');
    expect(inForce('VA')).toHaveTextContent('±200 mL');
    await user.click(button(/Adopt another/));
    await user.click(button(/Fill in the built-in edition/));
    await user.type(textbox('Reason'), 'The house procedure was withdrawn.');
    await user.click(button('Adopt from now on'));
    await closed(/Adopt another/);
    expect((await written(handle)).at(-1)?.body).toMatchObject({ limits: publishedLimits2017 });
    expect(inForce('VA')).toHaveTextContent('±300 mL');
  });
});

describe('the limits of the other checks', () => {
  it('start from the published ones with their sources, and are adopted by a supervisor with a reason', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onLaboratory(handle, '/laboratory/check-limits');
    expect(screen.getByText(/Nobody has adopted others/)).toBeInTheDocument();
    expect(inForce('Barometer check')).toHaveTextContent(/^±2\.5 % of the reference.*ERS\/ATS/);
    expect(await axe(container)).toEqual([]);
    await user.click(button(/^Adopt other limits/));
    const linearity = within(screen.getByRole('group', { name: 'Gas analyzer linearity' }));
    const limit = linearity.getByRole('textbox', { name: /^Each point within ±/ });
    await user.clear(limit);
    await user.type(limit, '1');
    await user.clear(textbox('Edition'));
    await user.type(textbox('Edition'), 'House 2026');
    await user.type(textbox('Reason'), 'As the manufacturer says.');
    await user.click(button('Adopt from now on'));
    expect(linearity.getByRole('textbox', { name: 'Source' })).toHaveAccessibleDescription(
      /does not stand in that source/,
    );
    expect(await written(handle)).toEqual([]);
    expect(await axe(container)).toEqual([]);
    await user.clear(linearity.getByRole('textbox', { name: 'Source' }));
    await user.type(linearity.getByRole('textbox', { name: 'Source' }), 'Manual of the analyzer');
    expect(
      screen.getByText(/^Wider than Published.*gas analyzer linearity ±1 % of full scale/),
    ).toBeVisible();
    await user.click(button('Adopt from now on'));
    await closed(/^Adopt other limits/);
    expect(await written(handle)).toMatchObject([
      {
        kind: 'check-limits-adopted',
        by: ids.supervisor,
        body: {
          limits: {
            edition: 'House 2026',
            linearity: { fraction: 0.01, source: 'Manual of the analyzer' },
            volumeCalibration: { fraction: 0.025 },
          },
          reason: 'As the manufacturer says.',
        },
      },
    ]);
    expect(inForce('Gas analyzer linearity')).toHaveTextContent('±1 % of full scale');
    expect(screen.getByText('±0.5 % of full scale', { selector: 's, s *' })).toBeInTheDocument();
    expect(screen.getByRole('link', { name: /Limits of the other checks.*House 2026/ })).toBeInTheDocument();
  });
});

describe('a policy', () => {
  it('with a minimum above its size is refused beside the field', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, onPolicy);
    await user.click(button(/Set the policy/));
    await user.clear(textbox('Judge from'));
    await user.type(textbox('Judge from'), '30');
    await user.type(textbox('Reason'), 'More runs.');
    await user.click(button('Set from now on'));
    expect(textbox('Judge from')).toHaveFocus();
    expect(textbox('Judge from')).toHaveAccessibleDescription(/would never judge: they are full at 20 runs/);
    expect(await written(handle)).toEqual([]);
  });

  it('is set for one analyzer from now on, and says in what it differs', async () => {
    const handle = await openStore(staffed());
    const started = new Date().toISOString();
    const { user, container } = await onLaboratory(handle, onPolicy);
    await user.click(button(/Set the policy/));
    expect(await axe(container)).toEqual([]);
    for (const rule of ['1-3s', '2-2s', 'R-4s', '4-1s', '10x']) await user.selectOptions(choice(rule), 'off');
    expect(screen.getByText(/No rule is an action/)).toBeInTheDocument();
    await user.selectOptions(choice('1-3s'), 'action');
    expect(screen.queryByText(/No rule is an action/)).toBeNull();
    await user.type(textbox('Reason'), 'Too many false alarms.');
    await user.click(button('Set from now on'));
    await closed(/Set the policy/);
    expect(screen.getByText('Differs from the usual in: 2-2s, R-4s, 4-1s, 10x.')).toBeInTheDocument();
    expect(inForce('10x')).toHaveTextContent('off ten runs in a row on one side of the mean');
    expect(screen.getByRole('link', { name: /^Policy of .* differs in 4$/ })).toBeInTheDocument();
    const [entry] = await written(handle);
    const { from, policy } = (entry?.body ?? {}) as EntryBody<'policy-set'>;
    expect(from >= started && from <= new Date().toISOString()).toBe(true);
    // Every rule by its name: a later change of the usual policy must not reach a day that is over.
    expect(policy.severity).toEqual({
      '1-2s': 'warning',
      '1-3s': 'action',
      '2-2s': 'off',
      'R-4s': 'off',
      '4-1s': 'off',
      '10x': 'off',
      '7T': 'warning',
      EWMA: 'warning',
      CUSUM: 'warning',
    });
  });

  it('that reached the disk although its save was reported as failed is written once', async () => {
    const handle = withOneFailure(await openStore(staffed()), 'after');
    const { user } = await onLaboratory(handle, onPolicy);
    await user.click(button(/Set the policy/));
    await user.selectOptions(choice('7T'), 'off');
    await user.type(textbox('Reason'), 'It says little here.');
    await user.click(button('Set from now on'));
    expect(await screen.findByText(/^Not saved\./)).toBeInTheDocument();
    await user.click(button('Set from now on'));
    await closed(/Set the policy/);
    expect(await written(handle)).toHaveLength(1);
  });

  it('that somebody sets elsewhere while the form stands open is told of', async () => {
    const handle = await openStore(staffed());
    const { user } = await onLaboratory(handle, onPolicy);
    await user.click(button(/Set the policy/));
    await act(() =>
      handle.appendEntries([policySet('2026-03-01T00:00:00.000Z', policyWith({ limits: 'rolling' }))]),
    );
    expect(await screen.findByText(/set elsewhere while this form stood open/)).toBeInTheDocument();
  });

  it('of a retired analyzer can be read, not set', async () => {
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Sold.' });
    const handle = await openStore([...staffed(), retired]);
    await onLaboratory(handle, onPolicy);
    expect(screen.getByText(/its policy stays as it is/)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: /Set the policy/ })).toBeNull();
  });
});

it('an address that names no setting leads to one that is', async () => {
  const handle = await openStore(staffed());
  await onLaboratory(handle, '/laboratory/schedule/nothing');
  expect(screen.getByText('This address names no setting.')).toBeInTheDocument();
  expect(screen.getByRole('link', { name: 'go to the form of writing' })).toBeInTheDocument();
});
