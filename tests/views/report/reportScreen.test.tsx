import 'fake-indexeddb/auto';
import { act, renderHook, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Route } from 'wouter';
import type { LogbookHandle } from '../../../src/store/openLogbook.ts';
import { useChainCheck } from '../../../src/views/chainCheck.tsx';
import ReportScreen from '../../../src/views/report/reportScreen.tsx';
import { useReport } from '../../../src/views/report/useReport.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, run, tenGoodRuns } from '../laboratory.ts';
import { openStore, show, staffed, takeInHand } from '../onLogbook.tsx';
import { halfYear, sourcesOf } from './reportBuilding.ts';

/** What the tests are about, and no more: a report is long. */
const short = 'without~controls~checks~failures~events~method~equipment~sign-offs';
const quarter = `/report/2026-01-01/2026-03-31/all/a4/${short}`;
const onReport = (handle: LogbookHandle, path = quarter) =>
  show(handle, <Route component={ReportScreen} path="/report/*?" />, path);
const paper = () => screen.getByRole('article', { name: 'The report' });
const chapters = () => within(paper()).getAllByRole('heading', { level: 2 });
const printed = () => screen.findByRole('button', { name: 'Print…' });
const whole = async () => {
  await screen.findByText('The browser’s print dialog can also save it as a PDF.', {}, { timeout: 5000 });
};
const tick = (name: string) => screen.getByRole('checkbox', { name });

const failing = () => [...staffed(), ...tenGoodRuns(), run(10, 3.37)];
const roomThree = draft('analyzer-added', {
  ...analyzerAdded,
  analyzerId: 'analyzer-room-3',
  label: 'Room 3',
});

afterEach(() => vi.restoreAllMocks());

describe('the printed report', () => {
  it('stands there chapter by chapter, with its charts', async () => {
    await onReport(await openStore(failing()));
    await whole();
    expect(chapters().map(({ textContent }) => textContent)).toEqual([
      'Quality control of DLCO analyzers',
      'Room 2',
      'The laboratory',
    ]);
    // VA and DLCO of the one route that was run.
    expect(
      within(paper())
        .getAllByRole('img')
        .map((chart) => chart.getAttribute('aria-label')),
    ).toEqual([
      expect.stringMatching(/^Simulated VA, patient test, in L\. 11 runs, 1 with a warning or a failure\./),
      expect.stringMatching(/^DLCO, patient test, in mL\/min\/mmHg\. 11 runs, none with/),
    ]);
  });

  it('is printed by the browser, once it is all there', async () => {
    const print = vi.spyOn(window, 'print').mockImplementation(() => {});
    const { user } = await onReport(await openStore(failing()));
    await whole();
    await user.click(await printed());
    expect(print).toHaveBeenCalledOnce();
  });

  it('is whole at once where a print is asked for before all is there', async () => {
    const sources = await sourcesOf([...tenGoodRuns(), run(10, 3.37)]);
    const { result } = renderHook(() => useReport(halfYear, sources));
    expect(result.current).toEqual({ chapters: [], isWhole: false });
    act(() => {
      window.dispatchEvent(new Event('beforeprint'));
    });
    expect(result.current.isWhole).toBe(true);
    expect(result.current.chapters.map(({ id }) => id)).toEqual(['cover', ids.analyzer, 'laboratory']);
  });

  it('writes its head where the margins of a page read it, and takes it away again', async () => {
    const { unmount } = await onReport(await openStore(failing()));
    await whole();
    const head = () => document.documentElement.style.getPropertyValue('--print-head');
    expect(head()).toBe('"Quality control of DLCO analyzers · 1 Jan 2026 to 31 Mar 2026"');
    unmount();
    expect(head()).toBe('');
  });

  it('names who is in hand as the one who made it', async () => {
    takeInHand(ids.technologist);
    await onReport(await openStore(failing()));
    await whole();
    expect(within(paper()).getByText('OF, Orla Fenn')).toBeInTheDocument();
  });
});

describe('a journal that is not as it was written', () => {
  it('is told on the cover, where the notices of the screen are not', async () => {
    const handle = await openStore(failing());
    const checkChains: LogbookHandle['checkChains'] = async (onChecked) => {
      const { breaks, ...report } = await handle.checkChains(onChecked);
      const changed = {
        kind: 'hash' as const,
        row: 3,
        entryId: null,
        workstation: null,
        seq: 4,
        sentence: 'Changed.',
      };
      return { ...report, breaks: [...breaks, changed] };
    };
    const view = (
      <>
        <Route component={ReportScreen} path="/report/*?" />
        <CheckNow />
      </>
    );
    const { user } = await show({ ...handle, checkChains }, view, quarter);
    await whole();
    expect(paper()).toHaveTextContent('The chains were not checked to their end when this was made.');
    await user.click(screen.getByRole('button', { name: 'Check' }));
    expect(
      await screen.findByText(/^The journal is not as it was written: the check found 1 break/),
    ).toBeVisible();
  });
});

function CheckNow() {
  const { start } = useChainCheck();
  return (
    <button onClick={start} type="button">
      Check
    </button>
  );
}

describe('what is chosen', () => {
  it('stands in the address: analyzers, parts and paper', async () => {
    const { user, location } = await onReport(await openStore([...failing(), roomThree]));
    await whole();
    // It was added after the period and never run in it.
    expect(tick('Room 3')).not.toBeChecked();
    await user.click(tick('Room 3'));
    await whole();
    expect(chapters().map(({ textContent }) => textContent)).toContain('Room 3');
    await user.click(tick('Room 3'));
    await user.click(tick('Charts'));
    await user.selectOptions(screen.getByRole('combobox', { name: 'Paper' }), 'letter');
    await whole();
    expect(location.history.at(-1)).toBe(
      `/report/2026-01-01/2026-03-31/${ids.analyzer}/letter/${short.replace('without', 'without~charts')}`,
    );
    expect(paper()).toHaveAttribute('data-paper', 'letter');
    expect(chapters().map(({ textContent }) => textContent)).not.toContain('Room 3');
    expect(within(paper()).queryByRole('img')).not.toBeInTheDocument();
    await user.click(tick('Charts'));
    await whole();
    expect(within(paper()).getAllByRole('img')).toHaveLength(2);
  });

  it('is the last twelve months at first', async () => {
    await onReport(await openStore(failing()), '/report');
    const [from, to] = ['From', 'Up to and including'].map(
      (label) => screen.getByLabelText<HTMLInputElement>(label).value,
    );
    const days = (Date.parse(to ?? '') - Date.parse(from ?? '')) / 86_400_000;
    expect([364, 365]).toContain(days);
  });

  it('is no report of nobody: a period before the first analyzer says so', async () => {
    const { user } = await onReport(await openStore(failing()), '/report/2020-01-01/2020-02-01/all/a4');
    expect(screen.getByText(/^None was in use or run in this period\./)).toBeInTheDocument();
    expect(screen.queryByRole('article')).not.toBeInTheDocument();
    await user.click(tick('Room 2'));
    await whole();
    expect(screen.queryByText(/^None was in use/)).not.toBeInTheDocument();
    expect(within(paper()).getByRole('heading', { level: 2, name: 'Room 2' })).toBeInTheDocument();
  });

  it('is told what keeps it from being a report, and none stands there', async () => {
    const { user } = await onReport(await openStore(failing()), '/report/2026-06-30/2026-01-01');
    expect(screen.getByLabelText('From')).toHaveAccessibleDescription('It begins after it ends.');
    expect(screen.queryByRole('article')).not.toBeInTheDocument();
    await user.click(tick('Room 2'));
    expect(screen.getByText('Choose an analyzer at least.')).toBeInTheDocument();
  });
});
