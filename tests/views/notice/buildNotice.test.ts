import { describe, expect, it } from 'vitest';
import { type ControlPolicy, defaultControlPolicy } from '../../../src/core/index.ts';
import { falseAlarmQuestions } from '../../../src/views/notice/buildFalseAlarms.ts';
import {
  type Asked,
  buildNotice,
  noticeQuestions,
  publishedSentence,
} from '../../../src/views/notice/buildNotice.ts';
import type { OwnSpread } from '../../../src/views/notice/ownSpreads.ts';
import { questionOf, runsUntil } from '../../../src/views/notice/questions.ts';
import { cusumRunLengths, ewmaRunLengths, exactRunLengths } from '../../reference/runLengths.ts';
import { answered, dlcoSpread, onlyRules, vaSpread } from './spreads.ts';

const asked = (inForce: ControlPolicy, changes: Partial<Asked> = {}): Asked => ({
  inForce,
  whatIf: null,
  counting: 'signal',
  runsPerWeek: 1,
  ...changes,
});

const built = (spread: OwnSpread, question: Asked) =>
  buildNotice(spread, question, answered(noticeQuestions([spread], question)));

/** 100, 200 and 300 mL are 1, 2 and 3 SD. */
const wide = vaSpread({ mean: 3, sd: 0.1 });

describe('what is asked about a series', () => {
  it.each([
    ...exactRunLengths.map(([rules, byShift]) => ({
      name: rules.join('+'),
      policy: onlyRules(rules),
      byShift,
    })),
    { name: 'EWMA(0.2, 2.86)', policy: onlyRules(['EWMA'], ewmaRunLengths), byShift: ewmaRunLengths.byShift },
    {
      name: 'CUSUM(0.5, 5)',
      policy: onlyRules(['CUSUM'], cusumRunLengths),
      byShift: cusumRunLengths.byShift,
    },
  ])('under $name has the published run lengths for an answer, to 0.5 %', ({ policy, byShift }) => {
    const known = answered([
      ...noticeQuestions([wide], asked(policy)),
      ...falseAlarmQuestions([], asked(policy)),
    ]);
    for (const [inSd, printed] of byShift.entries()) {
      const shiftL = [0, 0.1, 0.2, 0.3][inSd] ?? Number.NaN;
      const runs = runsUntil(questionOf(policy, 'signal', shiftL / 0.1), known);
      expect(typeof runs === 'number' && Math.abs(runs / printed - 1), `${inSd} SD: ${runs}`).toBeLessThan(
        0.005,
      );
    }
  });

  it('leads with what the sentences tell, and leaves out a series without own limits', () => {
    const questions = noticeQuestions(
      [wide, vaSpread(null), dlcoSpread({ mean: 0, sd: 0.1 })],
      asked(onlyRules(['1-3s'])),
    );
    expect(questions.slice(0, 2).map(({ shiftSd }) => shiftSd)).toEqual([1, 2]);
    expect(noticeQuestions([vaSpread(null)], asked(defaultControlPolicy))).toEqual([]);
    expect(noticeQuestions([wide], asked(onlyRules([])))).toEqual([]);
  });
});

describe('a series in words', () => {
  it('says after how many weeks each shift is noticed, and by the published limits alone', () => {
    // 1-3s: 43.9, 6.30 and 2.00 runs at 1, 2 and 3 SD. At 0.5 SD 1/(Φ(−2.5) + Φ(−3.5)) = 155.2 runs, 3.0 years.
    // Published, 3 SD from the mean: the very same.
    const { rows } = built(wide, asked(onlyRules(['1-3s'])));
    expect(rows.map(({ shift, inSd, inForce }) => [shift, inSd, inForce])).toEqual([
      ['50', '0.5', '3 years'],
      ['100', '1.0', '44 weeks'],
      ['200', '2.0', '6 weeks'],
      ['300', '3.0', '2 weeks'],
    ]);
    for (const { inForce, publishedUp, publishedDown } of rows) {
      expect([publishedUp, publishedDown]).toEqual([inForce, inForce]);
    }
  });

  it('takes the published limits on the side they stand on', () => {
    // Mean 3.117, SD 0.036. A leak of 100 mL: 2.31 SD to the limit, 94.7 weeks; 100 mL down: 8.8 SD.
    const { rows, told } = built(
      vaSpread({ mean: 3.117, sd: 0.036 }),
      asked(onlyRules(['1-3s', '2-2s', 'R-4s', '4-1s'])),
    );
    expect(rows[1]).toMatchObject({ publishedUp: '1.8 years', publishedDown: 'more than 10 years' });
    expect(told).toBe(
      'A leak that adds 100 mL (2.8 SD) to VA is noticed after 2 weeks on average; by the published limits alone after 1.8 years.',
    );
  });

  it('says how many SD away the published limits stand, as of the published year', () => {
    // ERS congress poster, item 160623: VA 3.117 ± 0.036 L, DLCO −0.013 ± 0.078 mmol/min/kPa.
    expect(publishedSentence(vaSpread({ mean: 3.117, sd: 0.036 }))).toBe(
      'The published 2.700 and 3.300 L (ERS/ATS 2017) stand 11.6 SD below and 5.1 SD above this mean.',
    );
    const published = { low: -0.166, high: 0.166, edition: 'ERS/ATS 2017' };
    expect(
      publishedSentence(dlcoSpread({ mean: -0.013, sd: 0.078 }, { unit: 'mmol/min/kPa', published })),
    ).toBe(
      'The published −0.166 and 0.166 mmol/min/kPa (ERS/ATS 2017) stand 2.0 SD below and 2.3 SD above this mean.',
    );
  });

  it('asks about DLCO in the unit of the series', () => {
    const shifts = (unit: OwnSpread['unit']) =>
      built(dlcoSpread({ mean: 0, sd: 0.1 }, { unit }), asked(onlyRules(['1-3s']))).rows.map(
        ({ shift }) => shift,
      );
    expect(shifts('mL/min/mmHg')).toEqual(['0.1', '0.2', '0.3', '0.4', '0.5']);
    expect(shifts('mmol/min/kPa')).toEqual(['0.030', '0.070', '0.100', '0.130', '0.170']);
  });

  it('puts other rules beside those in force', () => {
    const { rows, moved } = built(wide, asked(onlyRules(['1-3s']), { whatIf: onlyRules(['EWMA']) }));
    // EWMA(0.2, 2.86): 9.80 and 3.59 runs.
    expect(rows.map(({ inForce, whatIf }) => [inForce, whatIf]).slice(1, 3)).toEqual([
      ['44 weeks', '10 weeks'],
      ['6 weeks', '4 weeks'],
    ]);
    expect(moved).toBe('100 mL: 10 weeks, in force 44 weeks.');
    expect(built(wide, asked(onlyRules(['1-3s']))).moved).toBe('');
  });

  it('reckons by how often runs are made', () => {
    const daily = built(wide, asked(onlyRules(['1-3s']), { runsPerWeek: 7 }));
    expect(daily.rows.map(({ inForce }) => inForce)).toEqual(['22 weeks', '6 weeks', '1 week', '2 days']);
  });

  it('counts warnings or leaves them out', () => {
    const policy = {
      ...onlyRules(['1-3s']),
      severity: { ...onlyRules(['1-3s']).severity, '1-2s': 'warning' as const },
    };
    // 1-2s at 1 SD, with 1-3s within it: 1/(Φ(−1) + Φ(−3)) = 6.25 runs.
    expect(built(wide, asked(policy)).rows[1]?.inForce).toBe('6 weeks');
    expect(built(wide, asked(policy, { counting: 'failure' })).rows[1]?.inForce).toBe('44 weeks');
  });

  it('says what is still being computed, and what no rule notices', () => {
    const waiting = buildNotice(wide, asked(onlyRules(['1-3s'])), new Map());
    expect(waiting.rows[0]?.inForce).toBe('computing…');
    expect(waiting.told).toMatch(
      / is noticed … \(computing\); by the published limits alone after 44 weeks\.$/,
    );
    const off = built(wide, asked(onlyRules([])));
    expect(off.rows[1]).toMatchObject({ inForce: 'never: no rule on', publishedUp: '44 weeks' });
    expect(off.told).toBe(
      'A leak that adds 100 mL (1.0 SD) to VA is noticed by no rule; by the published limits after 44 weeks on average.',
    );
  });

  it('says why there are no figures while there is no own SD', () => {
    const early = built(vaSpread(null, { n: 7 }), asked(defaultControlPolicy));
    expect(early).toMatchObject({ rows: [], told: '', figures: [] });
    expect(early.missing).toMatch(/^No own SD yet: 7 of the 10 accepted runs/);
    expect(early.published).toBe('The published 2.700 and 3.300 L (ERS/ATS 2017) judge alone.');
    expect(built(vaSpread(null), asked(defaultControlPolicy)).missing).toMatch(
      /^The 20 accepted runs are all alike/,
    );
  });
});
