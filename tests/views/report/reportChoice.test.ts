import { describe, expect, it } from 'vitest';
import {
  addressOfChoice,
  choiceErrors,
  type ReportChoice,
  readChoice,
  usualChoice,
} from '../../../src/views/report/reportChoice.ts';

const today = '2026-11-25';
const usual = usualChoice(today, 'd-mon-yyyy');
const read = (address: string) => readChoice(address, usual);
/** As the route hands it on: without the path of the screen. */
const rest = (choice: ReportChoice) => addressOfChoice(choice).replace('/report/', '');

describe('usualChoice', () => {
  it('is the last twelve months, everything, on A4', () => {
    expect(usual).toEqual({ from: '2025-11-26', to: today, analyzerIds: null, paper: 'a4', without: [] });
  });

  it('begins on the last day of February where the day after a year back is none', () => {
    expect(usualChoice('2024-02-29', 'd-mon-yyyy').from).toBe('2023-03-01');
  });

  it('is Letter where the month is written first', () => {
    expect(usualChoice(today, 'mm/dd/yyyy').paper).toBe('letter');
    expect(usualChoice(today, 'dd/mm/yyyy').paper).toBe('a4');
  });
});

describe('the address of a report', () => {
  it.each<ReportChoice>([
    usual,
    { from: '2026-01-01', to: '2026-03-31', analyzerIds: ['one', 'two'], paper: 'letter', without: [] },
    { ...usual, analyzerIds: [], without: ['charts', 'events'] },
    { ...usual, analyzerIds: ['with/slash, comma', 'Ä ö'], without: ['sign-offs'] },
  ])('gives back what was chosen: %j', (choice) => {
    expect(read(rest(choice))).toEqual(choice);
  });

  it('takes what is usual for what it leaves out or nobody knows', () => {
    expect(read('')).toEqual(usual);
    expect(read('2026-01-01/2026-06-30')).toEqual({ ...usual, from: '2026-01-01', to: '2026-06-30' });
    expect(read('2026-01-01/2026-06-30/all/a5/without~nothing~charts')).toEqual({
      ...usual,
      from: '2026-01-01',
      to: '2026-06-30',
      without: ['charts'],
    });
  });
});

describe('choiceErrors', () => {
  const errors = (changed: Partial<ReportChoice>) => choiceErrors({ ...usual, ...changed }, today);

  it('finds none in what is usual, or in a single day', () => {
    expect(errors({})).toEqual({});
    expect(errors({ from: today })).toEqual({});
  });

  it('says what is missing, turned round, in the future or empty beside its field', () => {
    expect(errors({ from: '' })).toEqual({ from: 'Choose a date.' });
    expect(errors({ from: '2026-02-30' })).toEqual({ from: 'Choose a date.' });
    expect(errors({ to: 'nonsense' })).toEqual({ to: 'Choose a date.' });
    expect(errors({ from: '2026-03-02', to: '2026-03-01' })).toEqual({ from: 'It begins after it ends.' });
    expect(errors({ to: '2026-11-26' })).toEqual({
      to: 'It cannot end after today, 25 Nov 2026: nothing is known of later days.',
    });
    expect(errors({ analyzerIds: [] })).toEqual({ analyzers: 'Choose an analyzer at least.' });
  });
});
