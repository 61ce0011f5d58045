import { describe, expect, it } from 'vitest';
import {
  causeText,
  dlcoOfDisagreement,
  readTogether,
  type Standing,
  singleBreathDlco,
  standingOf,
  togetherIds,
  togetherText,
} from '../../src/core/index.ts';

const standings: readonly Standing[] = ['usual', 'high', 'low', 'not-judged'];
const signal = { rule: '1-2s' as const, severity: 'warning' as const, ids: ['r1'] };
const inside = { isBreached: false, offTarget: 0.1 };

describe('readTogether', () => {
  it.each([
    ['usual', 'usual', 'both-usual'],
    ['high', 'high', 'both-off-alike'],
    ['low', 'low', 'both-off-alike'],
    ['high', 'low', 'off-opposite-ways'],
    ['low', 'high', 'off-opposite-ways'],
    ['low', 'usual', 'only-biological-off'],
    ['usual', 'high', 'only-simulation-off'],
    ['not-judged', 'high', 'not-judged'],
    ['usual', 'not-judged', 'not-judged'],
  ] as const)('of a person %s and a syringe %s is %s', (biological, simulation, together) => {
    expect(readTogether(biological, simulation)).toBe(together);
  });

  it('knows every pair, and says something of every outcome', () => {
    const outcomes = standings.flatMap((one) => standings.map((other) => readTogether(one, other)));
    expect(new Set(outcomes)).toEqual(new Set(togetherIds));
    for (const id of togetherIds) {
      expect(togetherText.dlco[id].says).toMatch(/\.$/);
      expect(togetherText.va[id].says).toMatch(/\.$/);
    }
  });

  it('points to what a syringe does not exercise, or the person, when only the person is off', () => {
    // The project's domain notes, section 7; the table of causes says the same.
    for (const { says } of [
      togetherText.dlco['only-biological-off'],
      togetherText.va['only-biological-off'],
    ]) {
      expect(says).toContain('warm moist gas, the patient circuit');
      expect(says).toContain('the person');
    }
    expect(causeText['not-exercised']).toContain('warm moist gas, the patient circuit');
  });

  it('is right that gas analyzers which disagree move a person and a syringe the same way', () => {
    // The single-breath equation: CO read 2.16 % low raises a syringe's 0 by 0.50, and a person's DLCO by that and the ratio of their VA.
    const gas = { co: 0.003, tracer: 0.003 };
    const breath = { vaBtpsL: 6, breathHoldS: 10, barometricMmHg: 760, inspired: gas };
    const person = (share: number) =>
      singleBreathDlco({ ...breath, alveolar: { co: 0.0012 * share, tracer: 0.0024 } });
    const syringe = dlcoOfDisagreement({ disagreement: 0.0216, vaBtpsL: 3.3, breathHoldS: 10 });
    expect(syringe).toBeCloseTo(0.5, 2);
    expect(person(1 - 0.0216) - person(1)).toBeCloseTo((syringe * 6) / 3.3, 10);
  });
});

describe('the text for a person whose DLCO alone is off', () => {
  it('sends the reader to the volumes: a volume measured wrongly moves a person and not a syringe', () => {
    // The single-breath equation is in proportion to VA, and a syringe's gases do not change: ln 1 is 0.
    const breath = {
      breathHoldS: 10,
      barometricMmHg: 760,
      inspired: { co: 0.003, tracer: 0.003 },
    };
    const off = (alveolar: { co: number; tracer: number }) =>
      singleBreathDlco({ ...breath, vaBtpsL: 6 * 1.05, alveolar }) -
      singleBreathDlco({ ...breath, vaBtpsL: 6, alveolar });
    expect(off({ co: 0.0012, tracer: 0.0024 })).toBeGreaterThan(1);
    expect(off({ co: 0.0024, tracer: 0.0024 })).toBe(0);
    expect(togetherText.dlco['only-biological-off'].says).toContain('volume measured wrongly');
    expect(togetherText.dlco['only-biological-off'].next).toContain('VA');
  });
});

describe('standingOf', () => {
  it('is off at a breach, to the side of the target', () => {
    const judged = { z: 0.4, signals: [] };
    expect(standingOf(judged, { isBreached: true, offTarget: -3.1 })).toBe('low');
    expect(standingOf({ z: null, signals: [] }, { isBreached: true, offTarget: 3.1 })).toBe('high');
  });

  it('is off where a rule fires, also one that warns, to the side of the mean', () => {
    expect(standingOf({ z: -2.4, signals: [signal] }, inside)).toBe('low');
    expect(standingOf({ z: 2.4, signals: [signal] }, inside)).toBe('high');
    expect(standingOf({ z: 1.9, signals: [] }, inside)).toBe('usual');
  });

  it('is not judged without own limits', () => {
    expect(standingOf({ z: null, signals: [] }, inside)).toBe('not-judged');
  });
});
