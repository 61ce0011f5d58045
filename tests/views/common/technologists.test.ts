import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import {
  intervalSentence,
  leftOutSentence,
  pairCells,
  whoSentence,
} from '../../../src/views/common/describeTechnique.ts';
import {
  compareTechnologists,
  isComparable,
  practisedSeries,
} from '../../../src/views/common/technologists.ts';
import {
  baseline,
  draft,
  ids,
  laboratoryDrafts,
  opened,
  run,
  technologistDraft,
  week,
} from '../laboratory.ts';

const third = 'technologist-third';
const staff = () => [
  ...laboratoryDrafts(),
  technologistDraft(),
  draft('technologist-added', {
    technologistId: third,
    name: 'Ada Brook',
    initials: 'AB',
    role: 'technologist',
  }),
];

const by = (technologistId: string, from: number, values: readonly number[], everyWeeks = 1) =>
  values.map((vaL, index) => run(from + index * everyWeeks, vaL, { technologistId, dlco: vaL - 3 }));

const ofSupervisor = Object.freeze([3.02, 3.01, 3.03, 3.0, 2.97]);
const ofTechnologist = Object.freeze([2.98, 2.97, 2.99, 3.02, 3.01]);
const ofThird = Object.freeze([3.05, 3.03, 3.04, 3.06, 3.045]);

async function compared(drafts: readonly EntryDraft[]) {
  const { logbook, assessments } = await opened(drafts, staff());
  const [series] = practisedSeries(logbook, assessments);
  if (series === undefined) throw new Error('nobody has made a run');
  return { series, technique: compareTechnologists(series, logbook, assessments) };
}

describe('compareTechnologists', () => {
  it('gives the difference of two with its interval, as R does', async () => {
    const { technique } = await compared([
      ...by(ids.supervisor, 0, ofSupervisor),
      ...by(ids.technologist, 5, ofTechnologist),
    ]);
    const [va] = technique.quantities;
    expect(va?.pairs).toHaveLength(1);
    const [pair] = va?.pairs ?? [];
    // R 4.2.2: t.test(c(3020, 3010, 3030, 3000, 2970), c(2980, 2970, 2990, 3020, 3010))
    expect(pair?.byItself?.difference).toBeCloseTo(12, 8);
    expect(pair?.byItself?.lower).toBeCloseTo(-20.0133811053, 6);
    expect(pair?.byItself?.upper).toBeCloseTo(44.0133811053, 6);
    // One pair has nothing to be widened for.
    expect(pair?.together).toEqual(pair?.byItself);
  });

  it('lists three by the alphabet in three pairs, whose intervals are widened to hold together', async () => {
    const { technique } = await compared([
      ...by(ids.supervisor, 0, ofSupervisor, 3),
      ...by(ids.technologist, 1, ofTechnologist, 3),
      ...by(third, 2, ofThird, 3),
    ]);
    expect(technique.compared.map(({ initials }) => initials)).toEqual(['AB', 'IM', 'OF']);
    const [va] = technique.quantities;
    const cells = pairCells(va?.pairs ?? [], 'mL');
    // R 4.2.2: t.test(a, b), and with conf.level = 1 - 0.05/3; AB less IM turns the sign round.
    expect(
      cells.map(({ names, difference, byItself, together, says }) => [
        names,
        difference,
        byItself,
        together,
        says,
      ]),
    ).toEqual([
      ['AB less IM', '+39', '+11 to +67', '+1 to +77', 'They read apart'],
      ['AB less OF', '+51', '+25 to +77', '+17 to +85', 'They read apart'],
      ['IM less OF', '+12', '−20 to +44', '−30 to +54', 'No difference is shown'],
    ]);
    expect(intervalSentence(3)).toMatch(/There are 3 pairs.*all 3 hold together at 95 % \(Bonferroni\)/);
  });

  it('leaves out whoever has fewer than five accepted runs, and says who', async () => {
    const { series, technique } = await compared([
      ...by(ids.supervisor, 0, ofSupervisor),
      ...by(ids.technologist, 5, ofTechnologist.slice(0, 4)),
    ]);
    expect(isComparable(series)).toBe(false);
    expect(technique.compared.map(({ initials }) => initials)).toEqual(['IM']);
    expect(leftOutSentence(technique)).toBe('Left out, with fewer than 5 accepted runs: OF (4).');
  });

  it('counts accepted runs of the newest baseline alone', async () => {
    const { technique } = await compared([
      ...by(ids.supervisor, 0, [3.0, 3.0]),
      baseline(week(2)),
      ...by(ids.supervisor, 2, ofSupervisor),
      ...by(ids.technologist, 7, ofTechnologist),
      // Beyond the published 300 mL: a fault, and nobody's way of working.
      run(12, 3.4, { technologistId: ids.technologist }),
    ]);
    expect(whoSentence(technique)).toBe(
      'Accepted runs since the newest baseline began, from 19 Jan 2026 to 23 Mar 2026: IM 5 runs, OF 5 runs.',
    );
  });

  it('has no interval for readings that are all alike', async () => {
    const { technique } = await compared([
      ...by(ids.supervisor, 0, [3, 3, 3, 3, 3]),
      ...by(ids.technologist, 5, [3, 3, 3, 3, 3]),
    ]);
    const cells = pairCells(technique.quantities[0]?.pairs ?? [], 'mL');
    expect(cells[0]).toMatchObject({ difference: '–', byItself: '–', says: 'All their readings are alike' });
  });
});

describe('practisedSeries', () => {
  it('parts the routes, and leaves out precision gas and retired analyzers', async () => {
    const runs = [run(0, 3), run(1, 3, { route: 'built-in' }), run(2, 3, { method: 'precision-gas' })];
    const { logbook, assessments } = await opened(runs, staff());
    expect(practisedSeries(logbook, assessments).map(({ route }) => route)).toEqual([
      'patient-test',
      'built-in',
    ]);
    const retired = await opened(
      [...runs, draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Worn out.' })],
      staff(),
    );
    expect(practisedSeries(retired.logbook, retired.assessments)).toEqual([]);
  });
});
