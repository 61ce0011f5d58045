import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/journal/entries.ts';
import { buildSeriesList, firstToLookAt } from '../../../src/views/charts/buildSeriesList.ts';
import { listFailures } from '../../../src/views/failures.ts';
import {
  analyzerId,
  entry,
  opened,
  otherAnalyzerId,
  runEntry,
  runId,
  steadyVa,
  week,
  weeklyRuns,
} from './madeUpLogbook.ts';

function listOf(entries: readonly Entry[], now: number) {
  const { logbook, assessments } = opened(entries);
  return buildSeriesList(logbook, assessments, listFailures(logbook, assessments), now);
}

const onOther = (index: number, vaL: number, change = {}) =>
  runEntry({
    id: `other-${index}0`,
    at: week(index),
    vaL,
    change: { analyzerId: otherAnalyzerId, ...change },
  });

describe('buildSeriesList', () => {
  it('is empty without runs', () => {
    expect(listOf([], week(1))).toEqual([]);
  });

  it('lists VA and DLCO of each route that has runs, with the state of the last', () => {
    const [group] = listOf(
      [...weeklyRuns(steadyVa), onOther(0, 3, { route: 'built-in' })],
      week(19) + 3 * 86_400_000,
    );
    expect(group?.label).toBe('Room 2');
    expect(group?.lines.map(({ name, path }) => [name, path])).toEqual([
      ['VA, patient test', `/charts/${analyzerId}/patient-test/va`],
      ['DLCO, patient test', `/charts/${analyzerId}/patient-test/dlco`],
    ]);
    expect(group?.lines[0]).toMatchObject({ mark: 'pass', since: 'last run 3 days ago', failureOpen: false });
    expect(group?.lines[0]?.z).toMatch(/^z \+0\.\d$/);
  });

  it('shows the dotted box while a passing series has no own limits, and its failure where it fails', () => {
    const lines = listOf([onOther(0, 3), ...weeklyRuns([3.5])], week(0)).flatMap((group) => group.lines);
    const va = lines.filter(({ series }) => series.quantity === 'va');
    expect(va.map(({ mark, failureOpen }) => [mark, failureOpen])).toEqual([
      ['fail', true],
      ['establishing', false],
    ]);
  });

  it('passes over voided runs, and says so where none is left', () => {
    const voided = entry('run-voided', { runId: runId(1), reason: 'Slip' }, week(2));
    const [kept] = listOf([...weeklyRuns([3, 3.5]), voided], week(2));
    expect(kept?.lines[0]).toMatchObject({ mark: 'establishing', since: 'last run 14 days ago' });
    const [none] = listOf(
      [...weeklyRuns([3]), entry('run-voided', { runId: runId(0), reason: 'Slip' }, week(2))],
      week(2),
    );
    expect(none?.lines[0]).toMatchObject({ mark: null, markWord: 'All runs voided' });
  });

  it('puts retired analyzers at the end', () => {
    const retired = entry('analyzer-retired', { analyzerId, reason: 'Sold' }, week(3));
    const groups = listOf([...weeklyRuns([3]), onOther(0, 3), retired], week(3));
    expect(groups.map(({ label, retired: isRetired }) => [label, isRetired])).toEqual([
      ['Room 5', false],
      ['Room 2', true],
    ]);
  });
});

describe('firstToLookAt', () => {
  it('prefers a failure to a warning, a warning to the first, and has nothing to show without runs', () => {
    const failing = listOf([...weeklyRuns([3]), onOther(0, 3.5)], week(1));
    expect(firstToLookAt(failing)?.path).toBe(`/charts/${otherAnalyzerId}/patient-test/va`);
    expect(firstToLookAt(listOf(weeklyRuns([3]), week(1)))?.path).toBe(
      `/charts/${analyzerId}/patient-test/va`,
    );
    expect(firstToLookAt([])).toBeUndefined();
  });

  it('takes the analyzer in hand before the first, where nothing fails or warns', () => {
    const groups = listOf([...weeklyRuns([3]), onOther(0, 3)], week(1));
    const [first, second] = groups.map(({ lines }) => lines[0]);
    expect(firstToLookAt(groups, second?.series.analyzerId)).toBe(second);
    expect(firstToLookAt(groups, 'an analyzer without runs')).toBe(first);
    const failing = listOf([...weeklyRuns([3]), onOther(0, 3.5)], week(1));
    expect(firstToLookAt(failing, analyzerId)?.series.analyzerId).toBe(otherAnalyzerId);
  });

  it('does not send anybody to the failure of a retired analyzer', () => {
    const retired = entry('analyzer-retired', { analyzerId: otherAnalyzerId, reason: 'Broken' }, week(3));
    const groups = listOf([...weeklyRuns([3]), onOther(0, 3.5), retired], week(3));
    expect(firstToLookAt(groups)?.path).toBe(`/charts/${analyzerId}/patient-test/va`);
  });
});
