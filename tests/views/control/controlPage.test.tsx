import 'fake-indexeddb/auto';
import { screen, waitFor, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { controlHref } from '../../../src/views/deskRoutes.ts';
import { axe } from '../charts/axe.ts';
import { biological, controlId, judgedAs, session, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, run } from '../laboratory.ts';
import { openStore, staffed, takeInHand, withOneFailure } from '../onLogbook.tsx';
import { choice, controlsIn, field, openAt, press } from './onControls.tsx';
import { firstSix } from './typed.ts';

const path = controlHref(controlId(6));
const logged = () => [
  ...staffed(),
  subjectAdded(),
  ...firstSix(),
  biological(6, 25.4, { judged: judgedAs('pass') }),
];

beforeEach(() => takeInHand(ids.technologist));

describe('the page of a control', () => {
  it('shows all that it says, how it was judged, and where it belongs', async () => {
    const { user } = await openAt(await openStore(logged()), path);
    expect(
      screen.getByRole('heading', { level: 1, name: /^Biological control of 16 Feb 2026, .*, Room 2$/ }),
    ).toBeInTheDocument();
    expect(screen.getByText('25.40 mL/min/mmHg')).toBeInTheDocument();
    expect(screen.getByRole('link', { name: 'B1' })).toHaveAttribute('href', `/equipment/subject/${subject}`);
    expect(screen.getByRole('link', { name: 'VA' })).toHaveAttribute(
      'href',
      `/controls/${ids.analyzer}/biological/${subject}/va`,
    );
    // Written by a hand that judged nothing, it comes out otherwise today: both stand there.
    const verdicts = within(screen.getByRole('region', { name: 'Verdicts of the control' }));
    expect(verdicts.getByText('On the day')).toBeInTheDocument();
    expect(verdicts.getByText('Today')).toBeInTheDocument();
    await user.click(screen.getByText('Why, as it comes out today'));
    expect(
      screen.getByText(/^DLCO is 25\.40 .* above the mean of the first 6, 25\.00: inside the published/),
    ).toBeVisible();
    expect(screen.getByRole('heading', { name: 'History' })).toBeInTheDocument();
  });

  it('names the unit of each simulation of its day, which need not be the laboratory’s', async () => {
    const reading = { vaL: 3.36, vaReportedAs: 'BTPS', dlcoUnit: 'mmol/min/kPa', dlco: 0.012 } as const;
    const sameDay = [run(6, 3.36, { dlco: 0.04 }), run(6, 3.36, { runId: 'run-in-si', reading })];
    await openAt(await openStore([...logged(), ...sameDay]), path);
    const table = within(screen.getByRole('region', { name: 'Simulations of the same day' }));
    expect(table.getByRole('cell', { name: '0.04 mL/min/mmHg' })).toBeInTheDocument();
    expect(table.getByRole('cell', { name: '0.012 mmol/min/kPa' })).toBeInTheDocument();
  });

  it('is amended with a reason and judged afresh; what it said before stays, struck through', async () => {
    const handle = await openStore(logged());
    const { user } = await openAt(handle, path);
    await user.click(press('Amend…'));
    expect(field('DLCO')).toHaveValue('25.4');
    await user.click(press('Amend test'));
    expect(screen.getByText('Nothing is changed: there is nothing to amend.')).toBeInTheDocument();
    await user.clear(field('DLCO'));
    await user.type(field('DLCO'), '29.4');
    const changes = within(screen.getByRole('region', { name: 'What changes' }));
    expect(changes.getByText('25.40 mL/min/mmHg')).toBeInTheDocument();
    expect(
      within(screen.getByRole('region', { name: 'Verdict as amended' })).getByText('Fail'),
    ).toBeInTheDocument();
    await user.click(press('Amend test'));
    expect(field('Reason for the amendment')).toHaveFocus();
    await user.type(field('Reason for the amendment'), 'Misread.');
    await user.click(press('Amend test'));

    await waitFor(() => expect(screen.getByText(/^Saved: the test is amended\./)).toHaveFocus());
    expect((await controlsIn(handle)).at(-1)).toMatchObject({
      kind: 'control-amended',
      by: ids.technologist,
      body: {
        controlId: controlId(6),
        reason: 'Misread.',
        control: {
          reading: { dlco: 29.4 },
          technologistId: ids.supervisor,
          madeAt: '2026-02-16T09:00:00.000Z',
        },
        judged: { word: 'fail', series: [{ name: 'dlco', withinPublished: false }, { name: 'va' }] },
      },
    });
    const figures = within(screen.getByRole('article')).getByText('DLCO as reported').nextElementSibling;
    expect(figures?.querySelector('s')).toHaveTextContent('25.40 mL/min/mmHg');
    expect(screen.getByText('As amended')).toBeInTheDocument();
  });

  it('writes one amendment where a save that reached the disk was reported as failed', async () => {
    const handle = withOneFailure(await openStore(logged()), 'after');
    const { user } = await openAt(handle, path);
    await user.click(press('Amend…'));
    await user.clear(field('DLCO'));
    await user.type(field('DLCO'), '25.9');
    await user.type(field('Reason for the amendment'), 'Misread.');
    await user.click(press('Amend test'));
    expect(await screen.findByText(/What you typed is still here/)).toBeInTheDocument();
    await user.click(press('Amend test'));
    expect(await screen.findByText(/^Saved: the test is amended\./)).toBeInTheDocument();
    expect((await controlsIn(handle)).filter(({ kind }) => kind === 'control-amended')).toHaveLength(1);
  });

  it('is left as it was, and takes the reader back to its heading', async () => {
    const handle = await openStore(logged());
    const { user } = await openAt(handle, path);
    await user.click(press('Amend…'));
    await user.click(press('Leave it'));
    expect(screen.getByRole('heading', { level: 1 })).toHaveFocus();
    await user.click(press('Void…'));
    await user.click(press('Leave it'));
    expect(screen.getByRole('heading', { level: 1 })).toHaveFocus();
    expect((await controlsIn(handle)).every(({ kind }) => kind === 'control-recorded')).toBe(true);
  });

  it('is voided by anyone with a reason, and then neither amended nor set aside', async () => {
    const handle = await openStore(logged());
    const { user } = await openAt(handle, path);
    await user.click(press('Void…'));
    await user.type(field('Reason'), 'Of another person.');
    await user.click(press('Void test'));
    await waitFor(() => expect(screen.getByText('Saved: the test is voided.')).toHaveFocus());
    expect(screen.getByText(/^Voided by OF, /)).toBeInTheDocument();
    expect(screen.queryByRole('button', { name: /Amend|Set aside/ })).not.toBeInTheDocument();
    expect((await controlsIn(handle)).at(-1)).toMatchObject({
      kind: 'control-voided',
      body: { controlId: controlId(6), reason: 'Of another person.' },
    });
  });

  it('is set aside and taken back in by a supervisor alone', async () => {
    const handle = await openStore(logged());
    const { user } = await openAt(handle, path);
    await user.click(press('Set aside…'));
    await user.type(field('Reason'), 'Had a cold.');
    await user.click(press('Set it aside'));
    expect(screen.getByText('This needs a supervisor.')).toBeInTheDocument();
    await user.selectOptions(choice('Supervisor'), ids.supervisor);
    await user.click(press('Set it aside'));
    expect(await screen.findByText('Saved: the test is set aside.')).toBeInTheDocument();
    expect(screen.getByText(/^Set aside by IM, /)).toBeInTheDocument();
    await user.click(press('Take back in…'));
    await user.type(field('Reason'), 'It was hay fever.');
    await user.click(press('Take it back in'));
    expect(await screen.findByText('Saved: the test is taken back in.')).toBeInTheDocument();
    const written = (await controlsIn(handle)).filter(({ kind }) => kind === 'control-set-aside');
    expect(written.map(({ by, body }) => [by, body.isSetAside])).toEqual([
      [ids.supervisor, true],
      [ids.supervisor, false],
    ]);
  });

  it('warns before a failure that it opened is lost with it', async () => {
    const handle = await openStore([...staffed(), subjectAdded(), ...firstSix(), biological(6, 30)]);
    const { user } = await openAt(handle, path);
    expect(screen.getByRole('link', { name: 'see it under Review' })).toHaveAttribute(
      'href',
      `/review/control/${controlId(6)}/dlco`,
    );
    await user.click(press('Void…'));
    expect(screen.getByText('It opened a failure: DLCO.')).toBeInTheDocument();
  });

  it('shows every level of a session, and what an amendment took out of it', async () => {
    const amended = session(6, { low: 0.3, high: 0.4 });
    const without = session(6, { low: 0.3 });
    if (without.kind !== 'control-recorded') throw new Error('no session');
    const handle = await openStore([
      ...staffed(),
      amended,
      draft('control-amended', {
        amendmentId: 'amendment-of-session',
        controlId: controlId(6),
        control: without.body.control,
        judged: judgedAs('pass', { name: 'low' }),
        reason: 'The high level was not run.',
      }),
    ]);
    await openAt(handle, path);
    expect(
      screen.getByRole('heading', { level: 1, name: /^Precision-gas simulator of/ }),
    ).toBeInTheDocument();
    expect(
      within(screen.getByRole('article')).getByText('Low level, target').nextElementSibling,
    ).toHaveTextContent('15.00 mL/min/mmHg, from the certificate');
    const high = within(screen.getByRole('article')).getByText('High level, DLCO').nextElementSibling;
    expect(high?.querySelector('s')).toHaveTextContent('35.40 mL/min/mmHg');
    expect(screen.queryByRole('link', { name: 'High level' })).not.toBeInTheDocument();
  });

  it('has nothing that axe finds wrong, as it stands and while it is amended', async () => {
    const { container, user } = await openAt(await openStore(logged()), path);
    expect(await axe(container)).toEqual([]);
    await user.click(press('Amend…'));
    await user.click(press('Amend test'));
    expect(await axe(container)).toEqual([]);
  });
});
