// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { analyzerInWords, syringeInWords } from '../../../src/views/equipmentInWords.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';

const wordsFor = (fields: readonly { name: string; value: string }[], name: string) =>
  fields.find((field) => field.name === name)?.value;

describe('a description in words', () => {
  it('holds every digit that was typed, and no more', () => {
    const syringe = syringeInWords({
      label: '3 L syringe A',
      serial: '',
      volumeL: 3.005,
      deadSpaceL: 0.11035,
      calibrationDueOn: '2026-09-30',
      leakCheckDueOn: null,
    });
    expect(wordsFor(syringe, 'Nominal volume')).toBe('3.005 L');
    expect(wordsFor(syringe, 'Dead space')).toBe('110.35 mL');
    const { analyzerId: _, ...description } = analyzerAdded;
    const analyzer = analyzerInWords({ ...description, analyzerDeadSpaceL: 0.0625 }, new Map());
    expect(wordsFor(analyzer, 'Dead space it subtracts')).toBe('62.5 mL');
  });

  it('says what is not known', () => {
    const syringe = syringeInWords({
      label: '3 L syringe A',
      serial: '',
      volumeL: 3,
      deadSpaceL: 0,
      calibrationDueOn: '2026-09-30',
      leakCheckDueOn: null,
    });
    expect(syringe).toEqual([
      { name: 'Serial number', value: '–' },
      { name: 'Nominal volume', value: '3.00 L' },
      { name: 'Volume from certificate', value: 'not known' },
      { name: 'Dead space', value: '0 mL' },
      { name: 'Hoses and filters', value: 'none' },
      { name: 'Calibration due on', value: '30 Sep 2026' },
      { name: 'Leak check due on', value: 'not known' },
    ]);
  });
});
