import { screen, waitFor, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { beforeEach, describe, expect, it } from 'vitest';
import { axe } from './axe.ts';
import { analyzerId, steadyVa, technologistId, weeklyRuns } from './madeUpLogbook.ts';
import { forgetChoices, openAt, vaPath } from './openCharts.tsx';

beforeEach(forgetChoices);

describe('charts screen', () => {
  it('offers the bench while there are no runs', () => {
    openAt('/charts', []);
    expect(screen.getByRole('heading', { name: 'No runs yet' })).toBeVisible();
    expect(screen.getByRole('link', { name: /bench/ })).toHaveAttribute('href', '/bench');
  });

  it('opens the series that needs attention first', () => {
    openAt('/charts', weeklyRuns([...steadyVa, 3.1]));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('VA, Room 2, patient test');
    expect(screen.getByRole('link', { name: /^VA, patient test: Fail/ })).toHaveAttribute(
      'aria-current',
      'true',
    );
  });

  it('opens the series in the address, and says so when there is none', () => {
    const { view } = openAt(`/charts/${analyzerId}/patient-test/dlco`, weeklyRuns(steadyVa));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('DLCO, Room 2, patient test');
    view.unmount();
    openAt(`/charts/${analyzerId}/built-in/va`, weeklyRuns(steadyVa));
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('No such series');
  });

  it('names and describes the chart for a screen reader', async () => {
    openAt(vaPath, weeklyRuns([...steadyVa, 3.1]));
    const chart = screen.getByRole('img', { name: 'VA, Room 2, patient test' });
    expect(chart).toHaveAccessibleDescription(/21 runs from .* 1 run with a signal\. Own 3 SD limits/);
    expect(chart.querySelector('title')).toHaveTextContent('VA, Room 2, patient test');
    expect(await within(chart).findByText('1-3s')).toBeInTheDocument();
  });

  it('shows the published rails on demand', async () => {
    openAt(vaPath, weeklyRuns(steadyVa));
    const chart = screen.getByRole('img');
    expect(await within(chart).findByText(/published 3\.300 L, 15\.9 SD away/)).toBeInTheDocument();
    await userEvent.click(screen.getByRole('checkbox', { name: 'Show the published limits' }));
    expect(within(chart).queryByText(/SD away/)).toBeNull();
    expect(within(chart).getAllByText('published')).toHaveLength(2);
  });

  it('lists the newest sixty runs and all on demand', async () => {
    openAt(vaPath, weeklyRuns([...steadyVa, ...steadyVa, ...steadyVa, ...steadyVa]));
    const bodyRows = () => within(screen.getByRole('table')).getAllByRole('row').length - 1;
    expect(bodyRows()).toBe(60);
    await userEvent.click(screen.getByRole('button', { name: 'Show all 80 runs' }));
    expect(bodyRows()).toBe(80);
  });
});

describe('voiding a run', () => {
  async function openForm(entries = weeklyRuns([...steadyVa, 3.1])) {
    const { control } = openAt(vaPath, entries);
    await userEvent.click(screen.getByRole('button', { name: /^Void the run of 26 May 2025/ }));
    return { control, form: screen.getByRole('form', { name: /^Void the run of 26 May 2025/ }) };
  }

  async function fillIn(form: HTMLElement) {
    await userEvent.type(within(form).getByRole('textbox', { name: 'Reason' }), 'Syringe slipped');
    await userEvent.selectOptions(within(form).getByRole('combobox'), technologistId);
  }

  it('says that the run stays visible, and writes nothing without a reason and a name', async () => {
    const { control, form } = await openForm();
    expect(form).toHaveTextContent('The run stays visible, struck through. It leaves every mean');
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    expect(within(form).getByRole('textbox', { name: 'Reason' })).toBeInvalid();
    expect(within(form).getByRole('combobox')).toBeInvalid();
    expect(control.written).toEqual([]);
  });

  it('says Saved only once it is stored, and then strikes the run through', async () => {
    const { control, form } = await openForm();
    await fillIn(form);
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    expect(screen.queryByText(/^Saved/)).toBeNull();
    control.release();
    const saved = await screen.findByText(/^Saved: the run of 26 May 2025, 08:00 is voided/);
    // The line is drawn first and takes the focus in the effect after it.
    await waitFor(() => expect(saved).toHaveFocus());
    expect(control.written).toMatchObject([
      { kind: 'run-voided', by: technologistId, body: { runId: 'run-0020', reason: 'Syringe slipped' } },
    ]);
    expect(screen.getByText(/^Voided by AB, .*: Syringe slipped$/)).toBeVisible();
    expect(screen.getByText('3.100').closest('s')).not.toBeNull();
    expect(screen.getAllByText(/21 runs .* 1 of them voided\. Last: 3\.010 L/)).not.toEqual([]);
  });

  it('keeps the reason and says what to do when it cannot be stored', async () => {
    const { control, form } = await openForm();
    await fillIn(form);
    control.failing = true;
    await userEvent.click(within(form).getByRole('button', { name: 'Void run' }));
    control.release();
    expect(await within(form).findByRole('alert')).toHaveTextContent('The disk is full');
    expect(within(form).getByRole('textbox', { name: 'Reason' })).toHaveValue('Syringe slipped');
    expect(screen.queryByText(/^Saved/)).toBeNull();
  });
});

describe('accessibility', () => {
  it('gives axe nothing to find', async () => {
    const { view } = openAt(vaPath, weeklyRuns([...steadyVa, 3.1]));
    expect(await axe(view.container)).toEqual([]);
  });
});
