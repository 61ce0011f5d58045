import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { dayInShort, rowCells, sentenceOf, whatTheyShare } from '../../../src/views/common/describeDay.ts';
import { sharedDaysOn } from '../../../src/views/common/sharedDays.ts';
import { splitDay } from '../../../src/views/common/splitDay.ts';
import {
  evidenceIn,
  failing,
  goodWeeks,
  hoursLater,
  investigated,
  room5,
  room7,
  sameDay,
  sentencesOf,
  threeAnalyzers,
  twoAnalyzers,
} from '../investigationFixtures.ts';
import { ids, opened, technologistDraft } from '../laboratory.ts';

const on = (analyzerId: string) => ({ analyzerId });

/** Ten good weeks of each, which have a mean of 3.000 L and an SD of 0.0216 L, and week 10 with these VA. */
const weekTen = (room2: number, room5Va: number, room7Va: number): EntryDraft[] => [
  ...goodWeeks(0),
  ...goodWeeks(200, on(room5)),
  ...goodWeeks(300, on(room7)),
  failing(room2),
  sameDay(110, room5Va, on(room5)),
  sameDay(120, room7Va, on(room7)),
];

async function split(drafts: readonly EntryDraft[], laboratory = threeAnalyzers()) {
  const { logbook, assessments } = await opened(drafts, laboratory);
  const [day] = sharedDaysOn(logbook, assessments, '2026-03-16');
  if (day === undefined) throw new Error('nothing is shared on the day');
  const quantities = splitDay(day, logbook, assessments);
  const [va, dlco] = quantities;
  if (va === undefined || dlco === undefined) throw new Error('a quantity is missing');
  return { day, quantities, va, dlco, logbook, cells: rowCells(va, day, logbook) };
}

describe('a day of three analyzers with one syringe', () => {
  it('on which all moved alike has a common shift that points to what they share', async () => {
    const { va, cells, quantities, logbook } = await split(weekTen(3.06, 3.06, 3.06));
    expect(va.kind).toBe('common');
    // By hand: 0.06 L of 0.021602 L are 2.78 SD, and a table of equal values has them all in its common level.
    expect(cells).toEqual(
      ['Room 2', 'Room 5', 'Room 7'].map((analyzer) =>
        expect.objectContaining({
          analyzer,
          off: '+60',
          z: '+2.8',
          common: '+2.8 (+60)',
          own: '0.0 (0)',
          says: 'Moved with the others',
        }),
      ),
    );
    expect(sentenceOf(va, logbook)).toBe(
      'VA: the 3 analyzers have a shift of +2.8 SD in common, +60 mL. It points to what they share: the syringe, the operator, the room or the gas, not the analyzers.',
    );
    expect(dayInShort(quantities)).toBe('VA: moved together');
  });

  it('on which one moved is that analyzer’s, however far it moved', async () => {
    const { va, cells, quantities, logbook } = await split(weekTen(3.0, 3.2, 3.0));
    expect(va.kind).toBe('own');
    expect(cells.map(({ common, own, says }) => [common, own, says])).toEqual([
      ['0.0 (0)', '0.0 (0)', 'Did not move'],
      // By hand: 0.2 / 0.021602 = 9.26.
      ['0.0 (0)', '+9.3 (+200)', 'Moved by itself'],
      ['0.0 (0)', '0.0 (0)', 'Did not move'],
    ]);
    expect(sentenceOf(va, logbook)).toBe(
      'VA: Room 5 (+9.3 SD) moved by itself, the others with the same syringe did not. It points to that analyzer.',
    );
    expect(dayInShort(quantities)).toBe('VA: one moved by itself');
  });

  it('names what one has besides what all have', async () => {
    const { va, cells, logbook } = await split(weekTen(3.06, 3.06, 3.12));
    // By hand: the middle of 2.78, 2.78 and 5.55 is 2.78; 5.55 − 2.78 = 2.78 is its own.
    expect(cells[2]).toMatchObject({
      common: '+2.8 (+60)',
      own: '+2.8 (+60)',
      says: 'Moved with the others, and further by itself',
    });
    expect(sentenceOf(va, logbook)).toMatch(/ Besides, by themselves: Room 7 \(\+2\.8 SD\)\.$/);
    const { cells: against } = await split(weekTen(3.06, 3.06, 3.0));
    expect(against[2]?.says).toBe('A shift of its own against that of the others');
  });

  it('does not call a shift of hardly 2 SD in one of them remarkable, and says how often chance brings it', async () => {
    const { va, quantities, logbook } = await split(weekTen(3.05, 3.0, 3.0));
    // By hand: 0.05 / 0.021602 = 2.31. P(|Z| > 2) = 0.0455 by any normal table; 1 − 0.9545³ = 0.130, one day in 7.7.
    expect(sentenceOf(va, logbook)).toBe(
      'VA: Room 2 (+2.3 SD) moved by itself, the others with the same syringe did not. It points to that analyzer. By chance alone one of 3 analyzers lies beyond 2 SD on about one day in 8.',
    );
    expect(dayInShort(quantities)).toBe('');
  });

  it('says of a shift that is part common and part own that neither part stands out', async () => {
    const { va, cells, logbook } = await split(weekTen(3.07, 3.03, 3.03));
    // By hand: 3.24, 1.39 and 1.39 SD; the middle is 1.39 and 1.85 of the first is its own.
    expect(va.kind).toBe('parts');
    expect(cells[0]).toMatchObject({
      common: '+1.4 (+30)',
      own: '+1.9 (+40)',
      says: 'Moved, in part with the others',
    });
    expect(sentenceOf(va, logbook)).toBe(
      'VA: Room 2 (+3.2 SD) moved, in part with the others and in part alone; neither part lies beyond 2 SD.',
    );
  });

  it('on which nothing moved says so', async () => {
    const { va, quantities, logbook } = await split(weekTen(3.01, 2.99, 3.0));
    expect(va.kind).toBe('neither');
    expect(sentenceOf(va, logbook)).toBe(
      'VA: neither a common shift nor one of a single analyzer beyond 2 SD.',
    );
    expect(dayInShort(quantities)).toBe('');
  });

  it('agrees with the investigation of a run of that day', async () => {
    const drafts = weekTen(3.12, 3.12, 3.12);
    const { va } = await split(drafts);
    const inquiry = await investigated(drafts);
    expect(va.kind).toBe('common');
    expect(evidenceIn(inquiry)).toContain('all-analyzers-moved');
    expect(sentencesOf(inquiry)).toContain('Room 5, same syringe: VA is high.');
  });

  it('takes the first run of each analyzer that day, and says how many more there were', async () => {
    const { cells } = await split([
      ...weekTen(3.06, 3.06, 3.06),
      sameDay(130, 3.0, { ...on(room5), madeAt: hoursLater(3) }),
    ]);
    expect(cells[1]).toMatchObject({ off: '+60', more: '1 more that day' });
    expect(cells[0]?.more).toBe('');
  });

  it('leaves an analyzer without own limits out of the split', async () => {
    const { cells, va } = await split([
      ...goodWeeks(0),
      ...goodWeeks(200, on(room5)),
      failing(3.06),
      sameDay(110, 3.06, on(room5)),
      sameDay(120, 3.06, on(room7)),
    ]);
    expect(cells[2]).toMatchObject({ off: '–', z: '–', common: '–', says: 'No own VA limits on that day' });
    expect(va.kind).toBe('common');
  });
});

describe('the unit of a DLCO table', () => {
  it('is that of most runs of the day', async () => {
    const si = (vaL: number) =>
      ({ reading: { vaL, vaReportedAs: 'BTPS', dlco: 0.003, dlcoUnit: 'mmol/min/kPa' } }) as const;
    const drafts = [failing(3), sameDay(110, 3, { ...on(room5), ...si(3) }), sameDay(120, 3, on(room7))];
    expect((await split(drafts)).dlco.unit).toBe('mL/min/mmHg');
    const most = [
      failing(3),
      sameDay(110, 3, { ...on(room5), ...si(3) }),
      sameDay(120, 3, { ...on(room7), ...si(3) }),
    ];
    expect((await split(most)).dlco.unit).toBe('mmol/min/kPa');
  });
});

describe('a day of two analyzers', () => {
  const two = (room2: number, room5Va: number) =>
    split(
      [...goodWeeks(0), ...goodWeeks(200, on(room5)), failing(room2), sameDay(110, room5Va, on(room5))],
      twoAnalyzers(),
    );

  it('tells who moved where the other did not, and that both did where they moved alike', async () => {
    expect((await two(3.06, 3.0)).va.kind).toBe('own');
    expect((await two(3.06, 3.06)).va.kind).toBe('common');
  });

  it('does not tell where they moved apart', async () => {
    const { va, cells, logbook } = await two(3.06, 2.94);
    expect(va.kind).toBe('untold');
    expect(cells.map(({ says }) => says)).toEqual([
      'Cannot be told from two analyzers',
      'Cannot be told from two analyzers',
    ]);
    expect(sentenceOf(va, logbook)).toMatch(/run a third with this syringe\.$/);
  });

  it('cannot split anything while one of them has no own limits', async () => {
    const { va, cells, logbook } = await split(
      [...goodWeeks(0), failing(3.06), sameDay(110, 3, on(room5))],
      twoAnalyzers(),
    );
    expect(va.kind).toBe('unjudged');
    expect(cells[0]?.says).toBe('No other to compare with');
    expect(sentenceOf(va, logbook)).toMatch(/^VA: fewer than two of the analyzers had own limits/);
  });
});

describe('whatTheyShare', () => {
  it('says in one line what all runs had, and counts what they had not in common', async () => {
    const { day, logbook } = await split(
      [
        ...goodWeeks(0),
        failing(3.06, { ambient: { temperatureC: 22, barometricMmHg: 760 } }),
        sameDay(110, 3, {
          ...on(room5),
          technologistId: ids.technologist,
          ambient: { temperatureC: 22, barometricMmHg: 760 },
        }),
      ],
      [...twoAnalyzers(), technologistDraft()],
    );
    expect(whatTheyShare(day, logbook)).toEqual([
      { name: 'Operator', value: expect.stringMatching(/^(IM|OF) \(1 run\); (IM|OF) \(1 run\)$/) },
      { name: 'Room', value: '22.0 °C, 760 mmHg, for all 2 runs' },
      { name: 'Gas', value: 'cylinder not written down, for all 2 runs' },
    ]);
  });
});
