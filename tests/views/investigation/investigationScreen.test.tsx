import 'fake-indexeddb/auto';
import { screen, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import InvestigationScreen from '../../../src/views/investigation/investigationScreen.tsx';
import { useScreenState } from '../../../src/views/screenState.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { axe } from '../charts/axe.ts';
import { biological, controlId, judgedAs, subjectAdded } from '../controlDrafts.ts';
import {
  checkDone,
  failing,
  goodWeeks,
  hoursLater,
  lookingInto,
  room5,
  sameDay,
  threeAnalyzers,
} from '../investigationFixtures.ts';
import { closure, draft, ids, technologistDraft, week } from '../laboratory.ts';
import { openStore, show } from '../onLogbook.tsx';
import { amendment, content, judged } from '../run/runFixtures.ts';

const builtIn = { route: 'built-in' as const };
const history = [...goodWeeks(0), ...goodWeeks(1000, { analyzerId: room5 }), ...goodWeeks(3000, builtIn)];

async function opened(entries: readonly EntryDraft[], number = 10) {
  const handle = await openStore([...threeAnalyzers(), technologistDraft(), ...history, ...entries]);
  return show(
    handle,
    <Route component={InvestigationScreen} path="/investigation/:runId" />,
    `/investigation/${ids.run(number)}`,
  );
}

const failedRepeat = () => sameDay(20, 3.21, { ...lookingInto('repeat'), judged: judged('fail', 3.21) });

const found = () => screen.getByRole('region', { name: 'What was found' });
const pointsTo = () => screen.getByRole('region', { name: 'What it points to' });
const checks = () => screen.getByRole('region', { name: 'Checks' });
const titles = () =>
  within(checks())
    .getAllByRole('heading', { level: 3 })
    .map(({ textContent }) => textContent);
const check = (title: string) => {
  const item = within(checks())
    .getByRole('heading', { name: new RegExp(`^${title}`) })
    .closest('li');
  if (item === null) throw new Error(`${title} is no item of the list`);
  return item;
};

describe('an investigation that has just begun', () => {
  it('says what was found, what it points to, and which check comes next', async () => {
    await opened([failing(3.2)]);
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('Investigation: Room 2');
    expect(found()).toHaveTextContent(
      /Simulated VA is 200 mL high \(z \+9\.3\)\. Outside your 3 SD, 200 mL above your mean, inside the published 300 mL\./,
    );
    expect(pointsTo()).toHaveTextContent(/Volume or flow is measured wrongly.*A little points here/);
    expect(pointsTo()).toHaveTextContent(/nobody here knows the cause/);
    expect(titles()[0]).toBe('Repeat the run next');
    expect(titles()).toContain('The other route not done');
    expect(check('Another analyzer')).toHaveTextContent(/Run Room 5.*Run Room 7/);
  });

  it('shows three analyzers to compare with and the rest at a press', async () => {
    const more = ['Room 8', 'Room 9'].map((label) =>
      draft('analyzer-added', { ...analyzerAdded, analyzerId: `analyzer-${label}`, label }),
    );
    await opened([failing(3.2), ...more]);
    const other = check('Another analyzer');
    expect(within(other).getByText('1 more').closest('details')).not.toHaveAttribute('open');
    expect(within(other).getAllByRole('button', { hidden: true })).toHaveLength(4);
  });

  it('begins a run on the bench, linked and with its route and syringe', async () => {
    const { user, location } = await opened([failing(3.2)]);
    await user.click(screen.getByRole('button', { name: 'Run the built-in routine' }));
    expect(location.history.at(-1)).toBe('/bench');
    expect(useScreenState.getState().benchDraft).toMatchObject({
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      route: 'built-in',
      reason: 'suspected-fault',
      investigates: { runId: ids.run(10), check: 'other-route' },
    });
  });

  it('repeats the run with the repeat as its reason', async () => {
    const { user } = await opened([failing(3.2)]);
    await user.click(screen.getByRole('button', { name: 'Repeat this run' }));
    expect(useScreenState.getState().benchDraft).toMatchObject({
      reason: 'repeat',
      investigates: { runId: ids.run(10), check: 'repeat' },
    });
  });

  it('opens the page on which a check is noted, linked', async () => {
    const { user, location } = await opened([failing(3.2)]);
    await user.click(screen.getByRole('button', { name: 'Note a volume check' }));
    expect(location.history.at(-1)).toBe(`/check/volume-check/${ids.analyzer}/${ids.run(10)}/volume-check`);
  });
});

describe('as checks come in', () => {
  const entries = [
    failing(3.2),
    failedRepeat(),
    checkDone('volume-check', {
      ...lookingInto('volume-check'),
      doneAt: hoursLater(0.5),
      note: 'Three flows.',
      volume: { expectedL: 3.36, readL: [3.35, 3.37, 3.36], limitFraction: 0.025 },
    }),
    sameDay(50, 3.01, { ...builtIn, ...lookingInto('other-route') }),
  ];

  it('each stands with its outcome, its link, who and when, and the causes are ranked anew', async () => {
    await opened(entries);
    expect(check('Repeat the run')).toHaveTextContent(/done.*Fail.*Room 2, .*IM/);
    expect(within(check('Repeat the run')).getByRole('link')).toHaveAttribute(
      'href',
      expect.stringContaining(`/run/${ids.run(20)}`),
    );
    expect(check('Volume check')).toHaveTextContent(/Passed, .*IM: Three flows\./);
    expect(check('The other route')).toHaveTextContent(/Pass/);
    expect(within(pointsTo()).getAllByRole('listitem')[0]).toHaveTextContent(
      /A setting or part that only one route uses\.Much points here.*For: the other route is good\./,
    );
    expect(found()).toHaveTextContent('Built-in routine: VA is good.');
    expect(titles().at(-1)).toMatch(/done$/);
  });

  it('a biological control stands with its verdict, its person and the way to its page, and is struck once voided', async () => {
    const control = biological(10, 29, {
      ...lookingInto('biological-control'),
      judged: judgedAs('fail', { withinPublished: false }),
    });
    const { unmount } = await opened([failing(3.2), subjectAdded(), control]);
    expect(check('Biological control')).toHaveTextContent(/done.*Fail.*Room 2, subject B1, .*IM/);
    const page = `/control/made/${controlId(10)}`;
    const shown = within(check('Biological control')).getByRole('link');
    expect(shown).toHaveAttribute('href', expect.stringContaining(page));
    expect(within(found()).getByRole('link', { name: 'See it' })).toHaveAttribute(
      'href',
      expect.stringContaining(page),
    );
    unmount();
    await opened([
      failing(3.2),
      subjectAdded(),
      control,
      draft('control-voided', { controlId: controlId(10), reason: 'Wrong subject.' }),
    ]);
    expect(check('Biological control')).toHaveTextContent(/not done.*Voided/);
  });

  it('is the same page from each run of it', async () => {
    await opened(entries, 20);
    expect(screen.getByText(/Patient test, run of/)).toHaveTextContent('16 Mar 2026');
    expect(check('Volume check')).toHaveTextContent('Passed');
  });

  it('gives axe nothing to find', { timeout: 30_000 }, async () => {
    const { container } = await opened(entries);
    expect(await axe(container)).toEqual([]);
  });
});

describe('an investigation that is over', () => {
  const offersNothing = () => {
    expect(checks()).toHaveTextContent('The matter is over: no check is offered any more.');
    expect(screen.queryByRole('button', { name: 'Repeat this run' })).not.toBeInTheDocument();
  };

  it('says by whom the failure was closed, and keeps what was checked', async () => {
    await opened([failing(3.2), failedRepeat(), closure(10, week(10.5))]);
    expect(screen.getByText(/^Closed by IM, 19 Mar 2026$/)).toBeInTheDocument();
    expect(
      screen.getByText(/Sample line replaced\. The run after the repair lies inside\./),
    ).toBeInTheDocument();
    expect(check('Repeat the run')).toHaveTextContent('Fail');
    offersNothing();
  });

  it('says that the run was voided since, and why', async () => {
    await opened([failing(3.2), draft('run-voided', { runId: ids.run(10), reason: 'Wrong syringe.' })]);
    expect(screen.getByText(/^The run was voided by IM/)).toBeInTheDocument();
    expect(screen.getByText(/Wrong syringe\. It opens no failure any more\./)).toBeInTheDocument();
    offersNothing();
  });

  it('says that the run was amended since and does not fail any more', async () => {
    await opened([failing(3.2), amendment(10, content(10, 3.02, { madeAt: week(10) }))]);
    expect(screen.getByText(/^The run was amended by IM/)).toBeInTheDocument();
    expect(screen.getByText(/As it now stands it does not fail\./)).toBeInTheDocument();
    expect(pointsTo()).toHaveTextContent('there is no cause to look for');
    offersNothing();
  });
});

describe('an investigation of nothing', () => {
  it('says so where the run is good', async () => {
    await opened([failing(3.01)]);
    expect(screen.getByText('This run opened no failure')).toBeInTheDocument();
    expect(pointsTo()).toHaveTextContent('there is no cause to look for');
  });

  it('says so where the address names no run', async () => {
    await opened([], 99);
    expect(screen.getByText('This address names no run of the logbook.')).toBeInTheDocument();
  });
});
