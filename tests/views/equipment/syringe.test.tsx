import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { checkHref } from '../../../src/views/routes.ts';
import { analyzerAdded, syringeAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { draft, ids, run, week } from '../laboratory.ts';
import { openStore, staffed, takeInHand } from '../onLogbook.tsx';
import { button, choice, heading, kindsAfter, onEquipment, textbox, writtenAfter } from './onEquipment.tsx';

const before = staffed().length;
const onSyringe = `/equipment/syringe/${ids.syringe}`;
const check = (checkId: string, outcome: 'passed' | 'failed', doneAt: string): EntryDraft =>
  draft('check-done', {
    checkId,
    check: 'syringe-leak',
    analyzerId: null,
    syringeId: ids.syringe,
    technologistId: ids.technologist,
    doneAt,
    outcome,
    volume: null,
    validUntil: outcome === 'passed' ? '2190-03-02' : null,
    note: 'At three volumes.',
    investigates: null,
  });

beforeEach(() => takeInHand(ids.supervisor));

describe('a syringe', () => {
  it('is added with its certificate and what may be left on it', async () => {
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, '/equipment/new/syringe');
    await user.type(textbox('Name'), 'Syringe B');
    await user.type(textbox(/Volume from certificate/), '2.996');
    expect(textbox(/Volume from certificate/)).toHaveAccessibleDescription(
      /The target of a run stays the nominal volume/,
    );
    await user.type(textbox('Dead space'), '85');
    await user.click(button('Add a hose or filter'));
    expect(textbox('What, 1')).toHaveFocus();
    await user.type(textbox('What, 1'), 'Filter');
    await user.click(button('Add syringe'));
    expect(textbox('Holds, 1')).toHaveFocus();
    expect(textbox('Holds, 1')).toHaveAccessibleDescription('Type the volume that it holds, in mL.');
    expect(await axe(container)).toEqual([]);
    expect(await kindsAfter(before, handle)).toEqual([]);
    await user.type(textbox('Holds, 1'), '55');
    await user.click(button('Add syringe'));
    await heading('Syringe B');
    expect(screen.getByText('Filter 55 mL')).toBeInTheDocument();
    expect((await writtenAfter(before, handle))[0]?.body).toMatchObject({
      volumeL: 3,
      certifiedVolumeL: 2.996,
      attachments: [{ name: 'Filter', volumeL: 0.055 }],
    });
    expect(await axe(container)).toEqual([]);
  });

  it('takes six hoses and filters, and each can be removed', async () => {
    const { user } = await onEquipment(await openStore(staffed()), '/equipment/new/syringe');
    for (let row = 1; row <= 6; row += 1) await user.click(button('Add a hose or filter'));
    expect(screen.queryByRole('button', { name: 'Add a hose or filter' })).not.toBeInTheDocument();
    await user.type(textbox('What, 3'), 'Hose');
    await user.click(button('Remove Hose'));
    expect(screen.queryByDisplayValue('Hose')).not.toBeInTheDocument();
    expect(button('Add a hose or filter')).toHaveFocus();
  });

  it('with a dead space beyond what a syringe has is asked about', async () => {
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, '/equipment/new/syringe');
    await user.type(textbox('Name'), 'Syringe B');
    await user.type(textbox('Dead space'), '450');
    await user.type(textbox(/Volume from certificate/), '3.2');
    await user.click(button('Add syringe'));
    expect(screen.getByRole('alert')).toHaveTextContent(
      /A dead space of 450 mL is large.*The certificate says 3\.20 L/,
    );
    expect(await kindsAfter(before, handle)).toEqual([]);
    await user.click(button('Yes: add syringe'));
    await heading('Syringe B');
    expect(await kindsAfter(before, handle)).toEqual(['syringe-added']);
  });
});

describe('a syringe that was dropped', () => {
  it('is written down with what happened, and due for its leak check until one is noted', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user, container } = await onEquipment(handle, onSyringe);
    await user.click(button('Dropped…'));
    expect(
      screen.getByText(/leak and stop are checked after any drop before it is used again/),
    ).toBeInTheDocument();
    await user.click(button('Record the drop'));
    expect(textbox('What happened')).toHaveAccessibleDescription('Say what happened.');
    expect(await axe(container)).toEqual([]);
    await user.type(textbox('What happened'), 'Fell from the trolley.');
    await user.click(button('Record the drop'));
    expect(await screen.findByText(/due at once: dropped .* and not checked since/)).toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'Note the leak and stop check' })).toHaveAttribute(
      'href',
      checkHref('syringe-leak', ids.syringe),
    );
    expect(
      screen.getByRole('link', { name: /Dedicated 3 L syringe.*dropped, not checked since/ }),
    ).toBeInTheDocument();
    expect(screen.getByText(/\. Fell from the trolley\./)).toBeInTheDocument();
    expect((await writtenAfter(before, handle)).map(({ kind, by }) => [kind, by])).toEqual([
      ['syringe-dropped', ids.technologist],
    ]);
    expect(await axe(container)).toEqual([]);
  });
});

/** A calibration with its certificate, or with a word alone where there is no volume. */
const calibration = (checkId: string, doneAt: string, measuredL?: number): EntryDraft =>
  draft('check-done', {
    checkId,
    check: 'syringe-calibration',
    analyzerId: null,
    syringeId: ids.syringe,
    technologistId: ids.technologist,
    doneAt,
    outcome: 'passed',
    volume: null,
    validUntil: '2190-03-02',
    note: '',
    investigates: null,
    ...(measuredL && {
      syringe: { nominalL: 3, measuredL, limitFraction: 0.005, certificate: checkId, issuedBy: '' },
    }),
  });

describe('syringe care', () => {
  const care = () => within(screen.getByRole('region', { name: 'Syringe care' }));

  it('shows the leak checks, newest first, a voided one struck through, with the way to note another', async () => {
    await onEquipment(
      await openStore([
        ...staffed(),
        check('check-number-1', 'failed', week(0)),
        check('check-number-2', 'passed', week(1)),
        draft('check-voided', { checkId: 'check-number-1', reason: 'Another syringe.' }),
      ]),
      onSyringe,
    );
    const section = within(
      care().getByRole('heading', { level: 3, name: 'Leak and stop checks' }).closest('section') ??
        document.body,
    );
    const [newest, voided] = section.getAllByRole('listitem');
    expect(newest).toHaveTextContent(/12 Jan 2026.*, OFLeak and stop check: passed/);
    expect(voided).toHaveTextContent(/failed.*Voided, IM: Another syringe\./);
    expect(voided?.querySelector('s')).toHaveTextContent('Leak and stop check: failed');
    expect(care().getByRole('link', { name: 'Note a syringe calibration' })).toHaveAttribute(
      'href',
      checkHref('syringe-calibration', ids.syringe),
    );
    expect(care().getByText(/^Leak and stop check due .*Mar 2190\.$/)).toBeInTheDocument();
  });

  it('shows the certified volumes over time, off the nominal one and since the certificate before', async () => {
    const { container } = await onEquipment(
      await openStore([
        ...staffed(),
        calibration('by-a-word', week(0)),
        calibration('number-71-204', week(10), 3.004),
        calibration('by-mistake', week(20), 3.04),
        calibration('number-82-111', week(30), 2.996),
        draft('check-voided', { checkId: 'by-mistake', reason: 'Another syringe.' }),
      ]),
      onSyringe,
    );
    const rows = within(screen.getByRole('region', { name: 'Certificates' }))
      .getAllByRole('row')
      .slice(1);
    // 2.996 − 3 and 2.996 − 3.004 by hand; the voided certificate counts for nothing.
    expect(rows.map((row) => row.textContent)).toEqual([
      expect.stringMatching(/^3 Aug 2026, OF2\.996 L−4 mL, −0\.13 %−8 mLnumber-82-1112 Mar 2190passed$/),
      expect.stringMatching(/^25 May 2026, OF3\.04 L.*Voided, IM: Another syringe\.$/),
      expect.stringMatching(/^16 Mar 2026, OF3\.004 L\+4 mL, \+0\.13 %–number-71-204/),
      expect.stringMatching(/^5 Jan 2026, OF––––2 Mar 2190passed$/),
    ]);
    expect(await axe(container)).toEqual([]);
  });

  it('says of each fall whether leak and stop were checked since', async () => {
    const fall = (droppedAt: string, description: string): EntryDraft =>
      draft('syringe-dropped', {
        dropId: `drop-of-${droppedAt}`,
        syringeId: ids.syringe,
        droppedAt,
        description,
      });
    await onEquipment(
      await openStore([
        ...staffed(),
        fall(week(0), 'Fell from the trolley.'),
        check('check-number-1', 'passed', week(1)),
        fall(week(2), 'Knocked against the sink.'),
      ]),
      onSyringe,
    );
    const fell = (what: string) => care().getByText(what).closest('li');
    expect(fell('Fell from the trolley.')).toHaveTextContent(/Leak and stop checked 12 Jan 2026.*: passed\./);
    expect(fell('Knocked against the sink.')).toHaveTextContent(/Leak and stop not checked since\./);
  });

  it('that failed stand at the top', async () => {
    await onEquipment(await openStore([...staffed(), check('check-number-1', 'failed', week(0))]), onSyringe);
    expect(screen.getByText(/^Leak and stop check failed .*: not passed since$/)).toBeInTheDocument();
  });
});

describe('another dead space', () => {
  const rooms = () => [
    ...staffed(),
    draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-3', label: 'Room 3' }),
  ];
  async function changing(drafts: EntryDraft[]) {
    const handle = await openStore(drafts);
    const page = await onEquipment(handle, onSyringe);
    await page.user.click(button('Change…'));
    await page.user.clear(textbox('Dead space'));
    await page.user.type(textbox('Dead space'), '160');
    await page.user.type(textbox('Reason'), 'A hose stays on.');
    return { handle, ...page };
  }
  const tick = (room: string) => screen.getByRole('checkbox', { name: `Start a new baseline on ${room}.` });

  it('starts a baseline on each analyzer that uses it, in the same save, by a supervisor', async () => {
    takeInHand(ids.technologist);
    const { handle, user, container } = await changing(rooms());
    expect(tick('Room 2')).toBeChecked();
    expect(tick('Room 3')).toBeChecked();
    await user.click(tick('Room 3'));
    await user.click(button('Save the change'));
    expect(choice('Supervisor')).toHaveAccessibleDescription('This needs a supervisor.');
    expect(await axe(container)).toEqual([]);
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(button('Save the change'));
    expect(await screen.findByText(/Changed/)).toBeInTheDocument();
    const written = await writtenAfter(before + 1, handle);
    expect(written.map(({ kind, by }) => [kind, by])).toEqual([
      ['syringe-changed', ids.supervisor],
      ['baseline-started', ids.supervisor],
    ]);
    expect(written[1]?.body).toMatchObject({ analyzerId: ids.analyzer, reason: 'A hose stays on.' });
  });

  it('that only puts a slip right starts none, unless one is ticked', async () => {
    const { handle, user } = await changing(rooms());
    await user.selectOptions(choice('Why it changes'), 'slip');
    expect(tick('Room 2')).not.toBeChecked();
    expect(choice('Why it changes')).toHaveAccessibleDescription(/Runs recorded with the slip still hold it/);
    await user.click(tick('Room 3'));
    await user.click(button('Save the change'));
    expect(await screen.findByText(/Changed/)).toBeInTheDocument();
    const written = await writtenAfter(before + 1, handle);
    expect(written.map(({ kind, body }) => [kind, body.analyzerId])).toEqual([
      ['syringe-changed', undefined],
      ['baseline-started', 'analyzer-room-3'],
    ]);
  });

  it('starts none where a failure is open, and leads to it', async () => {
    const { handle, user } = await changing([...rooms(), run(0, 3.37)]);
    expect(tick('Room 2')).toBeDisabled();
    expect(tick('Room 2')).not.toBeChecked();
    expect(screen.getByRole('link', { name: 'close it under Review' })).toHaveAttribute('href', '/review');
    await user.click(button('Save the change'));
    expect(await screen.findByText(/Changed/)).toBeInTheDocument();
    const written = await writtenAfter(before + 2, handle);
    expect(written.map(({ kind, body }) => [kind, body.analyzerId])).toEqual([
      ['syringe-changed', undefined],
      ['baseline-started', 'analyzer-room-3'],
    ]);
  });

  it('leaves every recorded run as it was: its volumes, its verdict of the day and its numbers', async () => {
    const recorded = run(0, 3.02, { syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 } });
    const { handle, user } = await changing([...staffed(), recorded]);
    const ready = () => {
      const snapshot = handle.getSnapshot();
      if (snapshot.state !== 'ready') throw new Error(`the logbook is ${snapshot.state}`);
      return snapshot.logbook;
    };
    const was = structuredClone(ready().runs);
    await user.click(button('Save the change'));
    expect(await screen.findByText(/Changed/)).toBeInTheDocument();
    expect(ready().syringes.get(ids.syringe)?.description.deadSpaceL).toBe(0.16);
    const [run0] = ready().runs;
    expect(run0?.body).toEqual(was[0]?.body);
    expect(run0?.simulation).toEqual(was[0]?.simulation);
    expect(run0?.body.syringe.deadSpaceL).toBe(0.11);
  });
});

describe('a change that moves no result', () => {
  it('is anyone’s: the certificate’s volume moves no target', async () => {
    takeInHand(ids.technologist);
    const handle = await openStore(staffed());
    const { user } = await onEquipment(handle, onSyringe);
    await user.click(button('Change…'));
    await user.type(textbox(/Volume from certificate/), '2.998');
    await user.type(textbox('Reason'), 'From the new certificate.');
    expect(screen.queryByRole('group', { name: 'New baselines' })).not.toBeInTheDocument();
    await user.click(button('Save the change'));
    expect(await screen.findByText('2.998 L', { selector: 'dd' })).toBeInTheDocument();
    expect(await kindsAfter(before, handle)).toEqual(['syringe-changed']);
  });

  it('of a name in use is refused beside the field', async () => {
    const handle = await openStore([
      ...staffed(),
      draft('syringe-added', { ...syringeAdded, syringeId: 'syringe-spare', label: 'Spare' }),
    ]);
    const { user } = await onEquipment(handle, onSyringe);
    await user.click(button('Change…'));
    await user.clear(textbox('Name'));
    await user.type(textbox('Name'), 'spare');
    await user.type(textbox('Reason'), 'Shorter.');
    await user.click(button('Save the change'));
    expect(textbox('Name')).toHaveAccessibleDescription(/A syringe in use is called “Spare” already\./);
    expect(await kindsAfter(before + 1, handle)).toEqual([]);
  });
});
