import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { buildControlList, firstToLookAt, isShownBy } from '../../../src/views/controls/buildControlList.ts';
import { hrefOf, readControlsAddress } from '../../../src/views/controls/controlsAddress.ts';
import { checkSeriesHref, controlSeriesHref } from '../../../src/views/deskRoutes.ts';
import { controlsOf } from '../../../src/views/useControlAssessments.ts';
import { biological, judgedAs, session, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, opened, week } from '../laboratory.ts';
import { linearityOfCo, volumeCheck } from './checkDraftsWithFigures.ts';

async function listOf(drafts: readonly EntryDraft[], now = week(20)) {
  const { logbook } = await opened(drafts);
  const { assessments, failures } = controlsOf(logbook);
  return buildControlList({ logbook, assessments, failures, now: Date.parse(now), zone: 'UTC' });
}

/** Mean 25, sample SD 0.70711: six tests, the seventh of which is 28.5, beyond 3.0 mL/min/mmHg. */
const firstSix = [25, 24, 26, 25.5, 24.5, 25].map((value, index) => biological(index, value));

describe('the list of controls', () => {
  it('names each kind that is made here, and where the first is written down', async () => {
    const [room] = await listOf([]);
    expect(room?.kinds.map(({ name, lines, begin }) => [name, lines.length, begin.label])).toEqual([
      ['Biological control', 0, 'Enter a biological control'],
      ['Precision-gas simulator', 0, 'Enter a simulator session'],
      ['Volume calibration check', 0, 'Note a volume calibration check'],
      ['Gas analyzer linearity', 0, 'Note a linearity check'],
    ]);
    expect(room?.kinds[0]?.due).toBe('usually every week');
    expect(firstToLookAt(await listOf([]))).toBeUndefined();
  });

  it('puts a person’s two series on one line, with the worse mark', async () => {
    const [room] = await listOf([
      subjectAdded(),
      ...firstSix,
      biological(6, 28.5, { judged: judgedAs('fail') }),
    ]);
    expect(room?.kinds[0]?.lines).toMatchObject([
      {
        name: 'B1',
        mark: 'fail',
        failureOpen: true,
        path: controlSeriesHref(ids.analyzer, { kind: 'biological', subjectId: subject, quantity: 'dlco' }),
        since: 'last 16 Feb 2026',
      },
    ]);
    // z is +3.5 / 0.70711 = 4.9 SD; VA never varied and has no z.
    expect(room?.kinds[0]?.lines[0]?.figures).toBe('DLCO z +4.9');
    expect(room?.kinds[0]?.due).toMatch(/^failed Mon 16 Feb: not passed since/);
  });

  it('says who is paused, and since when', async () => {
    const paused = draft('subject-state-set', {
      settingId: 'setting-one',
      subjectId: subject,
      state: 'paused',
      from: week(3),
      reason: 'On leave',
    });
    const [room] = await listOf([subjectAdded(), ...firstSix, paused]);
    expect(room?.kinds[0]?.lines[0]?.standing).toBe('paused since 26 Jan 2026');
  });

  it('leads to the level that failed', async () => {
    const [room] = await listOf([session(0, { low: 0.1, high: 2.5 })]);
    expect(room?.kinds[1]?.lines).toMatchObject([
      { name: 'Both levels', mark: 'fail', path: `/controls/${ids.analyzer}/simulator/high` },
    ]);
    const [one] = await listOf([session(0, { low: 0.1 })]);
    expect(one?.kinds[1]?.lines[0]?.name).toBe('Low level');
  });

  it('tells the farthest flow and each gas', async () => {
    const [room] = await listOf([volumeCheck(0, [3, 3.1, 2.97], 'failed'), linearityOfCo(1, [0, 0.2, 0])]);
    expect(room?.kinds[2]?.lines).toMatchObject([{ mark: 'fail', figures: 'farthest +3.3 %' }]);
    expect(room?.kinds[3]?.lines).toMatchObject([{ mark: 'pass', figures: 'CO 0.20 % of full scale' }]);
  });

  it('keeps a retired analyzer for what it has, without dates', async () => {
    const retired = draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Sold' });
    expect(await listOf([retired])).toEqual([]);
    const [room] = await listOf([volumeCheck(0, [3, 3, 3]), retired]);
    expect(room?.retired).toBe(true);
    expect(room?.kinds.map(({ kind, due }) => [kind, due])).toEqual([['volume-check', '']]);
  });
});

describe('what is shown first', () => {
  it('is an open failure, then what failed, then a warning, then what is due', async () => {
    const failing = await listOf([volumeCheck(0, [3.2], 'failed'), session(0, { low: 2.5 })]);
    expect(firstToLookAt(failing)?.name).toBe('Low level');
    const failed = await listOf([session(0, { low: 0.1 }), volumeCheck(0, [3.2], 'failed')]);
    expect(firstToLookAt(failed)?.asked.kind).toBe('volume-check');
    // A volume check of every day was due long ago; the simulator's sessions, every three months, were not.
    const due = await listOf([session(18, { low: 0.1 }), volumeCheck(10, [3, 3, 3])]);
    expect(firstToLookAt(due)?.asked.kind).toBe('volume-check');
  });

  it('stays with the line of the person whose VA is asked for', async () => {
    const [room] = await listOf([subjectAdded(), ...firstSix]);
    const line = room?.kinds[0]?.lines[0];
    const vaOf = (subjectId: string) =>
      readControlsAddress(controlSeriesHref(ids.analyzer, { kind: 'biological', subjectId, quantity: 'va' }));
    expect(line && isShownBy(line, vaOf(subject))).toBe(true);
    expect(line && isShownBy(line, vaOf('somebody-else'))).toBe(false);
    expect(line && isShownBy(line, null)).toBe(false);
  });
});

describe('the address of a control', () => {
  it.each([
    controlSeriesHref('analyzer one/two', { kind: 'biological', subjectId: 'a ü', quantity: 'va' }),
    controlSeriesHref('analyzer-one', { kind: 'simulator', level: 'high' }),
    checkSeriesHref('analyzer-one', 'volume-check'),
    checkSeriesHref('analyzer-one', 'linearity'),
  ])('%s is read as it is written', (href) => {
    const asked = readControlsAddress(href);
    expect(asked && hrefOf(asked)).toBe(href);
  });

  it.each([
    '/controls',
    '/controls/',
    '/controls/a',
    '/controls/a/simulator/middle',
    '/charts/a/linearity',
    '/controls/a/biological/b',
  ])('%s names nothing', (path) => expect(readControlsAddress(path)).toBeNull());
});
