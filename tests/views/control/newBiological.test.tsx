import 'fake-indexeddb/auto';
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { newControlHref } from '../../../src/views/deskRoutes.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { biological, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, run } from '../laboratory.ts';
import {
  openStore,
  settledEntriesOf,
  staffed,
  takeInHand,
  withOneFailure,
  withSlowSaves,
} from '../onLogbook.tsx';
import { choice, controlsIn, field, live, openAt, press } from './onControls.tsx';
import { firstSix, subjectSet } from './typed.ts';

const path = newControlHref('biological', ids.analyzer);
const otherAnalyzer = 'analyzer-room-5';
const addedOther = () =>
  draft('analyzer-added', {
    ...analyzerAdded,
    analyzerId: otherAnalyzer,
    label: 'Room 5',
    dlcoUnit: 'mmol/min/kPa',
  });

beforeEach(() => takeInHand(ids.technologist));

describe('a person’s test', () => {
  it('is judged while it is typed, recorded with that verdict, and leads on', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), ...firstSix()]);
    const { user } = await openAt(handle, path);
    expect(screen.getByRole('heading', { level: 1, name: 'Biological control, Room 2' })).toBeInTheDocument();
    // The only one who is tested stands there already.
    expect(choice('Subject')).toHaveValue(subject);
    expect(live()).toHaveTextContent('Still to come: DLCO, VA.');
    await user.type(field('DLCO'), '28,5');
    await user.type(field('Alveolar volume, VA'), '6.01');
    expect(within(live()).getByText('Fail')).toBeInTheDocument();
    expect(live()).toHaveTextContent(
      '3.50 (+14.0 %) above the mean of the first 6, 25.00: outside the published',
    );
    expect(live()).toHaveTextContent(/^Not recorded yet/);
    await user.click(press('Record test'));

    await waitFor(() => expect(screen.getByText(/^Saved\. Test of .*, recorded by OF\.$/)).toHaveFocus());
    const written = (await controlsIn(handle)).at(-1);
    expect(written).toMatchObject({
      kind: 'control-recorded',
      by: ids.technologist,
      body: {
        control: {
          kind: 'biological',
          subjectId: subject,
          technologistId: ids.technologist,
          reading: { dlco: 28.5, dlcoUnit: 'mL/min/mmHg', vaL: 6.01 },
        },
        judged: {
          word: 'fail',
          failureOpen: true,
          series: [
            { name: 'dlco', value: 28.5, withinPublished: false },
            { name: 'va', withinPublished: null },
          ],
        },
      },
    });
    const { controlId } = written?.body ?? {};
    expect(screen.getByRole('link', { name: 'Its own page' })).toHaveAttribute(
      'href',
      `/control/made/${controlId}`,
    );
    expect(screen.getByRole('link', { name: 'DLCO' })).toHaveAttribute(
      'href',
      `/controls/${ids.analyzer}/biological/${subject}/dlco`,
    );
    expect(
      within(screen.getByRole('region', { name: 'Recorded verdict' })).getByText('Fail'),
    ).toBeInTheDocument();
    await user.click(press('Enter another test'));
    expect(field('DLCO')).toHaveValue('');
  });

  it('leads a press that writes nothing to the first field that stopped it', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), subjectAdded('subject-green', 'G1')]);
    const { user } = await openAt(handle, path);
    await user.click(press('Record test'));
    expect(choice('Subject')).toHaveFocus();
    expect(choice('Subject')).toHaveAccessibleDescription('Choose who was tested, by their code.');
    expect(field('DLCO')).toHaveAccessibleDescription('Type the DLCO that the analyzer reports.');
    expect(await controlsIn(handle)).toEqual([]);
  });

  it('puts what was probably meant in the place of a slip', async () => {
    const { user } = await openAt(await openStore([...staffed(), subjectAdded()]), path);
    await user.type(field(/^Haemoglobin/), '142');
    await user.tab();
    await user.click(press('Switch to g/L'));
    expect(choice('Unit of haemoglobin')).toHaveValue('g/L');
    expect(field(/^Haemoglobin/)).not.toBeInvalid();
    await user.type(field('DLCO'), '254');
    await user.tab();
    await user.click(press('Use 25.4'));
    expect(field('DLCO')).toHaveValue('25.4');
  });

  it('says what to do first where nobody is tested here yet', async () => {
    const { user } = await openAt(await openStore(staffed()), path);
    expect(screen.getByText('No subject is in this logbook yet.')).toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'Add one under Equipment' })).toHaveAttribute(
      'href',
      '/equipment/subjects',
    );
    await user.click(press('Record test'));
    expect(choice('Subject')).toHaveFocus();
  });

  it('offers who is tested, and names who is not with the reason', async () => {
    const handle = await openStore([
      ...staffed(),
      subjectAdded(),
      subjectAdded('subject-green', 'G1'),
      subjectAdded('subject-red', 'R1'),
      subjectSet('paused', '2026-01-05T08:00:00.000Z', 'On leave', 'subject-green'),
      subjectSet('excluded', '2026-01-06T08:00:00.000Z', 'Varies too much', 'subject-red'),
    ]);
    const { user } = await openAt(handle, path);
    const offered = within(choice('Subject')).getAllByRole('option');
    expect(offered.map(({ textContent }) => textContent)).toEqual(['B1', 'R1']);
    expect(
      screen.getByText(/^Not tested at the moment: G1, paused since 5 Jan 2026: On leave\./),
    ).toBeInTheDocument();
    await user.selectOptions(choice('Subject'), 'R1');
    expect(choice('Subject')).toHaveAccessibleDescription(/Varies too much\. .*counts in no mean\.$/);
  });

  it('asks before it writes what is more often a slip, and writes once it is answered', async () => {
    const handle = await openStore([...staffed(), subjectAdded()]);
    const { user } = await openAt(handle, path);
    await user.type(field('DLCO'), '25.4');
    await user.type(field('Alveolar volume, VA'), '6');
    fireEvent.change(screen.getByLabelText('Made at'), { target: { value: '2199-01-31T08:00' } });
    await user.click(press('Record test'));
    expect(screen.getByRole('alert')).toHaveTextContent('still to come');
    expect(await controlsIn(handle)).toEqual([]);
    await user.click(press('Back to the form'));
    expect(field('DLCO')).toHaveValue('25.4');
    await user.click(press('Record test'));
    await user.click(press('Yes, record it'));
    expect(await controlsIn(handle)).toHaveLength(1);
  });

  it('writes one test where a save that reached the disk was reported as failed', async () => {
    const handle = withOneFailure(await openStore([...staffed(), subjectAdded()]), 'after');
    const { user } = await openAt(handle, path);
    await user.type(field('DLCO'), '25.4');
    await user.type(field('Alveolar volume, VA'), '6');
    await user.click(press('Record test'));
    expect(await screen.findByText(/What you typed is still here/)).toBeInTheDocument();
    await user.click(press('Record test'));
    expect(await screen.findByText(/^Saved\./)).toBeInTheDocument();
    expect(await controlsIn(handle)).toHaveLength(1);
  });

  it('says nothing of a save before it is on the disk', async () => {
    const handle = withSlowSaves(await openStore([...staffed(), subjectAdded()]));
    const { user } = await openAt(handle, path);
    await user.type(field('DLCO'), '25.4');
    await user.type(field('Alveolar volume, VA'), '6');
    await user.click(press('Record test'));
    expect(press('Saving…')).toBeInTheDocument();
    expect(screen.queryByText(/^Saved\./)).not.toBeInTheDocument();
    handle.letGo();
    expect(await screen.findByText(/^Saved\./)).toBeInTheDocument();
  });

  it('keeps what was typed while another page is looked at', async () => {
    const handle = await openStore([...staffed(), subjectAdded()]);
    const first = await openAt(handle, path);
    await first.user.type(field('DLCO'), '25.4');
    first.unmount();
    await openAt(handle, path);
    expect(field('DLCO')).toHaveValue('25.4');
  });

  it('takes what was typed to another analyzer, and keeps the unit it was read in', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), addedOther()]);
    const { user, location } = await openAt(handle, path);
    await user.type(field('DLCO'), '25.4');
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    expect(location.history.at(-1)).toBe(newControlHref('biological', otherAnalyzer));
    expect(field('DLCO')).toHaveValue('25.4');
    expect(choice('Unit of DLCO')).toHaveValue('mL/min/mmHg');
  });

  it('starts in the unit of the analyzer that is chosen before anything is typed', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), addedOther()]);
    const { user } = await openAt(handle, path);
    await user.selectOptions(choice('Analyzer'), 'Room 5');
    expect(choice('Unit of DLCO')).toHaveValue('mmol/min/kPa');
    expect(choice('Subject')).toHaveValue(subject);
  });

  it('belongs to the investigation that asked for it, and leads back there', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), run(0, 3.4)]);
    const { user } = await openAt(handle, newControlHref('biological', ids.analyzer, ids.run(0)));
    expect(screen.getByText(/^Looks into the run of 5 Jan 2026, 09:00 on Room 2\./)).toBeInTheDocument();
    await user.type(field('DLCO'), '25.4');
    await user.type(field('Alveolar volume, VA'), '6');
    await user.click(press('Record test'));
    expect(await screen.findByRole('link', { name: 'Back to the investigation' })).toHaveAttribute(
      'href',
      `/investigation/${ids.run(0)}`,
    );
    expect((await settledEntriesOf(handle)).at(-1)?.body).toMatchObject({
      control: { investigates: { runId: ids.run(0), check: 'biological-control' } },
    });
  });

  it('is written down by itself where the run of its address is not known', async () => {
    const handle = await openStore([...staffed(), subjectAdded()]);
    await openAt(handle, newControlHref('biological', ids.analyzer, 'run-of-elsewhere'));
    expect(screen.getByText(/is not in this logbook/)).toBeInTheDocument();
    expect(press('Record test')).toBeInTheDocument();
  });

  it('shows the person’s last tests on this analyzer, newest first', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), ...firstSix(), biological(6, 26.1)]);
    await openAt(handle, path);
    const table = within(screen.getByRole('region', { name: 'Last tests of B1 on Room 2' })).getByRole(
      'table',
    );
    const [, newest, ...others] = within(table).getAllByRole('row');
    expect(newest).toHaveTextContent('26.10');
    expect(others).toHaveLength(5);
  });

  it('has nothing that axe finds wrong, empty and with its errors', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), ...firstSix()]);
    const { container, user } = await openAt(handle, path);
    await user.click(press('Record test'));
    expect(await axe(container)).toEqual([]);
    await user.type(field('DLCO'), '28');
    await user.type(field('Alveolar volume, VA'), '6');
    expect(await axe(container)).toEqual([]);
  });
});

it.each([
  '/control/made/nothing-known',
  '/control/biological/nothing-known',
  '/control/simulator/',
  `/control/else/${ids.analyzer}`,
  '/control/%E0%A4%A',
])('%s names no control, and leads on', async (address) => {
  await openAt(await openStore(staffed()), address);
  expect(screen.getByText('This address names no control of this logbook.')).toBeInTheDocument();
  expect(screen.getByRole('link', { name: 'Controls' })).toHaveAttribute('href', '/controls');
});
