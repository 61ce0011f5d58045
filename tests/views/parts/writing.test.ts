// @vitest-environment node
import { afterEach, describe, expect, it } from 'vitest';
import { timeTicks } from '../../../src/views/charting/chartAxes.ts';
import {
  civilDay,
  day,
  dayAndTime,
  dayInYear,
  dlco,
  inField,
  litres,
  litresAsTyped,
  month,
  plain,
  signedMillilitres,
  signedPercent,
  timeOfDay,
  zInTable,
} from '../../../src/views/parts/figures.ts';
import { fileSize } from '../../../src/views/parts/fileSize.ts';
import { localDay, localMinute } from '../../../src/views/parts/localTime.ts';
import { exportFileName } from '../../../src/views/parts/saveFile.ts';
import { conversionWords, disagreementSentence } from '../../../src/views/parts/words.ts';
import { setWriting, usualWriting, type Writing, writingInForce } from '../../../src/views/parts/writing.ts';

const write = (changes: Partial<Writing>) => setWriting({ ...usualWriting, ...changes });
afterEach(() => setWriting(usualWriting));

describe('the decimal mark', () => {
  it('is a point where the laboratory has not said otherwise', () => {
    expect(writingInForce().decimalMark).toBe('point');
    expect(litres(2.97)).toBe('2.970');
  });

  it('is a comma in every number once the laboratory says so, with the same minus and the same digits', () => {
    write({ decimalMark: 'comma' });
    expect(litres(2.97)).toBe('2,970');
    expect(litresAsTyped(3.4512)).toBe('3,4512');
    expect(dlco(-0.1, 'mL/min/mmHg')).toBe('−0,10');
    expect(zInTable(3.14)).toBe('+3,14');
    expect(signedPercent(0.064)).toBe('+6,4');
    expect(plain(-0.5)).toBe('−0,5');
    expect(fileSize(1_540_000)).toBe('1,5 MB');
  });

  it('stands in sentences too', () => {
    write({ decimalMark: 'comma' });
    expect(conversionWords({ kind: 'fixed', factor: 0.91 })).toBe('fixed factor 0,91');
    expect(disagreementSentence(0.0216)).toBe('CO reads 2,16 % low against the tracer');
    expect(disagreementSentence(0)).toBe('CO and tracer agree within 0,005 %');
  });

  it('leaves a whole number alone, and gives zero no sign', () => {
    write({ decimalMark: 'comma' });
    expect(signedMillilitres(-92.4)).toBe('−92');
    expect(litres(-0)).toBe('0,000');
    expect(plain(1013)).toBe('1013');
  });

  it('of a field to type in goes with the minus of the keyboard', () => {
    expect(inField(-0.12)).toBe('-0.12');
    write({ decimalMark: 'comma' });
    expect(inField(-0.12)).toBe('-0,12');
  });
});

// 2 March 2026, 14:05 and five minutes past midnight: day and month differ, and both are below 13.
describe('dates and times', () => {
  const at = '2026-03-02T14:05:00.000Z';

  it.each<[Writing['dateForm'], string, string, string]>([
    ['d-mon-yyyy', '2 Mar 2026', '2 Mar', 'Mar 2026'],
    ['yyyy-mm-dd', '2026-03-02', '03-02', '2026-03'],
    ['dd.mm.yyyy', '02.03.2026', '02.03.', '03.2026'],
    ['dd/mm/yyyy', '02/03/2026', '02/03', '03/2026'],
    ['mm/dd/yyyy', '03/02/2026', '03/02', '03/2026'],
  ])('in the form %s', (dateForm, whole, inYear, ofMonth) => {
    write({ dateForm });
    expect(day(at, 'UTC')).toBe(whole);
    expect(dayAndTime(at, 'UTC')).toBe(`${whole}, 14:05`);
    expect(civilDay('2026-03-02')).toBe(whole);
    const local = new Date(2026, 2, 2, 12).getTime();
    expect(dayInYear(local)).toBe(inYear);
    expect(month(local)).toBe(ofMonth);
  });

  it('by a clock of twelve hours: noon is 12 pm, midnight 12 am', () => {
    write({ clock: '12' });
    expect(timeOfDay('2026-03-02T00:05:00.000Z', 'UTC')).toBe('12:05 am');
    expect(timeOfDay('2026-03-02T08:14:00.000Z', 'UTC')).toBe('8:14 am');
    expect(timeOfDay('2026-03-02T12:00:00.000Z', 'UTC')).toBe('12:00 pm');
    expect(dayAndTime('2026-03-02T23:59:00.000Z', 'UTC')).toBe('2 Mar 2026, 11:59 pm');
  });

  it('under the axis of a chart', () => {
    write({ dateForm: 'dd.mm.yyyy' });
    const local = (year: number, monthOfYear: number, dayOfMonth: number) =>
      new Date(year, monthOfYear - 1, dayOfMonth).getTime();
    const words = (from: number, to: number) => timeTicks(from, to).map(({ text }) => text);
    expect(words(local(2026, 5, 7), local(2026, 5, 9))).toEqual(['07.05.', '08.05.', '09.05.']);
    expect(words(local(2026, 1, 3), local(2026, 7, 2)).at(-1)).toBe('07.2026');
  });

  it('in a date field and in the name of a file stay as these need them', () => {
    write({ dateForm: 'mm/dd/yyyy', clock: '12' });
    const local = new Date(2026, 2, 2, 14, 5).getTime();
    expect(localDay(local)).toBe('2026-03-02');
    expect(localMinute(local)).toBe('2026-03-02T14:05');
    expect(exportFileName('Room 2', local)).toBe('dlco-qc-runs_room-2_2026-03-02.csv');
  });

  it.each(['', '2026-3-2', '02.03.2026'])('refuse “%s” as a civil date', (date) => {
    expect(() => civilDay(date)).toThrow(RangeError);
  });
});
