import { describe, expect, it } from 'vitest';
import { checkOutcomes } from '../../src/core/causeTable.ts';
import {
  type CheckId,
  causeRules,
  causeText,
  checkText,
  type Observations,
  rankCauses,
  splitShift,
  splitShifts,
} from '../../src/core/index.ts';

const strongest = (seen: Observations) => rankCauses(seen).causes[0]?.id;
const ranked = (seen: Observations) => rankCauses(seen).causes.map(({ id }) => id);

describe('rankCauses', () => {
  it('blames volume measurement when volume check and VA are off by about the same', () => {
    expect(strongest({ va: 'low', vaFraction: -0.06, volumeCheckFraction: -0.055, dlco: 'good' })).toBe(
      'volume-measurement',
    );
  });

  it('blames dilution or dead space for a high VA with a good volume check, and not volume', () => {
    const found = ranked({ va: 'high', vaFraction: 0.07, volumeCheckFraction: 0.004, dlco: 'good' });
    expect(found.slice(0, 2)).toEqual(['sample-diluted', 'dead-space-left-out']);
    expect(found).toContain('conditions-or-conversion');
    expect(found).not.toContain('volume-measurement');
    expect(found).not.toContain('sample-not-purged');
  });

  it('blames unpurged gas or a dead space taken off twice for a low VA with a good volume check', () => {
    const found = ranked({ va: 'low', vaFraction: -0.05, volumeCheckFraction: 0.01, dlco: 'good' });
    expect([...found.slice(0, 2)].sort()).toEqual(['dead-space-twice', 'sample-not-purged']);
  });

  it('blames the gas analyzers for a DLCO off zero with a good VA', () => {
    expect(ranked({ va: 'good', dlco: 'high' })).toEqual(['gas-analyzers-disagree']);
  });

  it('blames a route when the other is good, and not when it is off alike', () => {
    expect(strongest({ va: 'high', dlco: 'good', otherRoute: 'good' })).toBe('route-setting');
    // Also beside a volume check that speaks for dilution: a leak that both routes draw through would show in both.
    expect(strongest({ va: 'high', dlco: 'good', volumeCheckFraction: 0, otherRoute: 'good' })).toBe(
      'route-setting',
    );
    expect(ranked({ va: 'high', dlco: 'good', otherRoute: 'high' })).not.toContain('route-setting');
  });

  it('blames what is shared when all analyzers moved alike, and not when one did', () => {
    const all = splitShift(
      [
        [0.1, 3.2],
        [-0.2, 2.9],
        [0.2, 3.4],
      ],
      0,
    );
    expect(strongest({ va: 'high', dlco: 'good', acrossAnalyzers: all })).toBe('shared');
    const one = splitShift(
      [
        [0.1, 5.2],
        [-0.2, 0.3],
        [0.2, -0.4],
      ],
      0,
    );
    expect(ranked({ va: 'high', dlco: 'good', acrossAnalyzers: one })).not.toContain('shared');
  });

  it('points to an event that lies where the step may have begun, and names it', () => {
    const seen: Observations = {
      va: 'high',
      events: [
        { id: 'old', at: 1 },
        { id: 'new bag', at: 15 },
      ],
      onset: { after: 10, before: 20 },
    };
    const event = rankCauses(seen).causes.find(({ id }) => id === 'logged-event');
    expect(event?.for[0]?.eventIds).toEqual(['new bag']);
    expect(ranked({ ...seen, onset: { after: 16, before: 20 } })).not.toContain('logged-event');
  });

  it('sees conditions that are typed and not read', () => {
    expect(ranked({ weeksOfSameConditions: 4 })[0]).toBe('conditions-not-read');
    expect(ranked({ weeksOfSameConditions: 3 })).toEqual([]);
  });

  it('looks beyond the syringe when a biological control is off and the simulation good', () => {
    expect(ranked({ va: 'good', dlco: 'good', biologicalControl: 'off' })).toEqual(['not-exercised']);
    expect(ranked({ va: 'good', dlco: 'good', biologicalControl: 'good' })).toEqual([]);
  });

  it('learns from the run that follows a check which is the repair', () => {
    const high: Observations = { va: 'high', dlco: 'good', weeksOfSameConditions: 6 };
    expect(strongest(high)).toBe('conditions-not-read');
    expect(ranked({ ...high, afterReadingConditions: 'high' })).not.toContain('conditions-not-read');
    expect(strongest({ va: 'high', dlco: 'good', afterReadingConditions: 'good' })).toBe(
      'conditions-or-conversion',
    );
    const scoreOf = (seen: Observations) => rankCauses(seen).causes[0]?.score ?? 0;
    const off: Observations = { va: 'good', dlco: 'high' };
    expect(scoreOf({ ...off, afterGasCheck: 'good' })).toBeGreaterThan(scoreOf(off));
    expect(scoreOf({ ...off, afterGasCheck: 'high' })).toBeLessThan(scoreOf(off));
    expect(strongest({ ...off, afterGasCheck: 'high' })).toBe('gas-analyzers-disagree');
  });

  it('proposes no check that is settled, and then the next that tells', () => {
    const high: Observations = { va: 'high', dlco: 'good' };
    expect(rankCauses(high).nextCheck).toBe('volume-check');
    const second = rankCauses(high, new Set(['volume-check'])).nextCheck;
    expect(second).not.toBe('volume-check');
    expect(second).not.toBeNull();
    expect(rankCauses(high, new Set(Object.keys(checkText) as CheckId[])).nextCheck).toBeNull();
  });

  it('claims nothing where nothing was seen', () => {
    expect(rankCauses({})).toEqual({ evidence: [], causes: [], nextCheck: null });
  });

  it('names for every cause the evidence it rests on, and its score is their sum', () => {
    const ranking = rankCauses({
      va: 'high',
      vaFraction: 0.07,
      volumeCheckFraction: 0.004,
      dlco: 'good',
      otherRoute: 'high',
    });
    const seen = new Set(ranking.evidence.map(({ id }) => id));
    expect(ranking.causes.length).toBeGreaterThan(2);
    for (const cause of ranking.causes) {
      const weighed = [...cause.for, ...cause.against];
      expect(cause.for.length).toBeGreaterThan(0);
      expect(weighed.flatMap(({ evidence }) => evidence).every((id) => seen.has(id))).toBe(true);
      expect(weighed.reduce((sum, { weight }) => sum + weight, 0)).toBe(cause.score);
    }
    const scores = ranking.causes.map(({ score }) => score);
    expect(scores).toEqual([...scores].sort((first, second) => second - first));
  });

  it('proposes the check that tells the two strongest apart, and none that was done', () => {
    // Of the causes of a high VA volume measurement and dilution stand first: the volume check parts them.
    expect(rankCauses({ va: 'high' }).nextCheck).toBe('volume-check');
    expect(rankCauses({ va: 'high', otherRoute: 'high' }).nextCheck).not.toBe('other-route');
    const done: Observations = { va: 'low', vaFraction: -0.06, volumeCheckFraction: -0.055, dlco: 'good' };
    expect(rankCauses(done).nextCheck).not.toBe('volume-check');
    // One cause only: the check that is about it alone.
    expect(rankCauses({ va: 'good', dlco: 'high' }).nextCheck).toBe('other-gas');
    const all = splitShift(
      [
        [0, 3],
        [0, 3],
        [0, 3],
      ],
      0,
    );
    expect(rankCauses({ va: 'high', acrossAnalyzers: all }).nextCheck).not.toBe('other-analyzer');
  });

  it('does not take a volume check off by much less than VA for the same fault', () => {
    const { evidence } = rankCauses({
      va: 'high',
      vaFraction: 0.12,
      volumeCheckFraction: 0.04,
      dlco: 'good',
    });
    expect(evidence.map(({ id }) => id)).toContain('volume-check-off-alone');
    // The tolerance itself is still good.
    expect(rankCauses({ volumeCheckFraction: -0.03 }).evidence[0]?.id).toBe('volume-check-good');
  });
});

describe('the table of causes', () => {
  it('knows every cause and check by words, and every cause from some pattern', () => {
    const supported = new Set(
      causeRules.flatMap(({ says }) =>
        Object.entries(says).flatMap(([id, weight]) => (weight > 0 ? [id] : [])),
      ),
    );
    expect([...supported].sort()).toEqual(Object.keys(causeText).sort());
    expect(Object.keys(checkOutcomes).sort()).toEqual(Object.keys(checkText).sort());
  });
});

describe('splitShift', () => {
  it("parts what is common from what is an analyzer's own", () => {
    // By hand: the day's median of the three is 3.2 above a level of about 0.
    const split = splitShift(
      [
        [0, 3.2],
        [0, 3.2],
        [0, 7.2],
      ],
      2,
    );
    expect(split).toEqual({ commonSd: expect.closeTo(3.2, 9), ownSd: expect.closeTo(4, 9), kind: 'both' });
    expect(
      splitShift(
        [
          [0, 0.5],
          [0, 0.2],
          [0, -0.3],
        ],
        0,
      )?.kind,
    ).toBe('neither');
    expect(
      splitShift(
        [
          [0, 0.1],
          [0, 6],
          [0, -0.3],
        ],
        1,
      )?.kind,
    ).toBe('own');
  });

  it('cannot tell by two analyzers, nor by those that were not tested that day', () => {
    expect(
      splitShift(
        [
          [0, 3],
          [0, 3],
        ],
        0,
      ),
    ).toBeUndefined();
    expect(
      splitShift(
        [
          [0, 3],
          [0, 3],
          [0, null],
        ],
        0,
      ),
    ).toBeUndefined();
  });

  it('refuses an analyzer that is none of them', () => {
    expect(() => splitShift([[0, 3]], 1)).toThrow(/analyzer is 1/);
    expect(() => splitShift([[0, null]], 0)).toThrow(/has no z on the last day/);
  });
});

describe('splitShifts', () => {
  const z = Object.freeze([
    [0.1, 5.2],
    [-0.2, 0.3],
    [0.2, -0.4],
    [0.3, null],
  ]);

  it('gives for each analyzer what splitShift gives for it, and nothing for one not tested on the day', () => {
    expect(splitShifts(z)).toEqual([splitShift(z, 0), splitShift(z, 1), splitShift(z, 2), undefined]);
  });

  it('has the middle of a single day in common', () => {
    // By hand: the middle of 2.5, 2.4 and 7 is 2.5.
    const splits = splitShifts([[2.5], [2.4], [7]]);
    expect(splits.map((split) => split?.commonSd)).toEqual([2.5, 2.5, 2.5]);
    expect(splits.map((split) => split?.kind)).toEqual(['common', 'common', 'both']);
    expect(splits[2]?.ownSd).toBeCloseTo(4.5, 12);
  });

  it('tells nothing of fewer than three analyzers, and refuses what is no number', () => {
    expect(splitShifts([])).toEqual([]);
    expect(splitShifts([[3], [3]])).toEqual([undefined, undefined]);
    expect(() => splitShifts([[3], [Number.NaN], [3]])).toThrow(RangeError);
    expect(() => splitShifts([[3, 1], [3], [3, 2]])).toThrow(RangeError);
  });
});
