import { describe, expect, it } from 'vitest';
import type { RunContent } from '../../../src/journal/entries.ts';
import { changesBetween } from '../../../src/views/parts/contentFields.ts';
import { fieldsOf } from '../../../src/views/run/describeRun.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, technologistDraft } from '../laboratory.ts';
import { content, otherAnalyzer, otherAnalyzerId } from './runFixtures.ts';

const before = content(0, 3.4);
const fields = async () =>
  fieldsOf((await opened([technologistDraft(), otherAnalyzer()])).logbook, 'Europe/Oslo');

describe('changesBetween', () => {
  it('finds nothing between a run and itself', async () => {
    expect(changesBetween(before, structuredClone(before), await fields())).toEqual([]);
  });

  it.each<[string, Partial<RunContent>, string, string]>([
    ['Made at', { madeAt: '2026-01-05T08:30:00.000Z' }, '5 Jan 2026, 09:00', '5 Jan 2026, 09:30'],
    ['Analyzer', { analyzerId: otherAnalyzerId }, 'Room 2', 'Room 5'],
    ['Syringe', { syringeId: 'syringe-elsewhere' }, 'Dedicated 3 L syringe', 'unknown'],
    ['Method', { method: 'precision-gas' }, 'Syringe', 'Precision gas'],
    ['Route', { route: 'built-in' }, 'Patient test', 'Built-in routine'],
    ['Reason', { reason: 'repeat' }, 'Weekly', 'Repeat'],
    ['Technologist', { technologistId: ids.technologist }, 'IM, Ilse Marong', 'OF, Orla Fenn'],
    ['Temperature', { ambient: { ...before.ambient, temperatureC: 21.5 } }, '22 °C', '21.5 °C'],
    ['Temperature', { temperatureAsTyped: { value: 71.6, unit: '°F' } }, '22 °C', '71.6 °F'],
    ['Barometric pressure', { pressureAsTyped: { value: 101.3, unit: 'kPa' } }, '760 mmHg', '101.3 kPa'],
    ['Relative humidity', { ambient: { ...before.ambient, relativeHumidity: 0.29 } }, '–', '29 %'],
    ['VA as reported', { reading: { ...before.reading, vaL: 3.455 } }, '3.40 L BTPS', '3.455 L BTPS'],
    [
      'DLCO as reported',
      { reading: { ...before.reading, dlco: -0.3 } },
      '0.01 mL/min/mmHg',
      '−0.30 mL/min/mmHg',
    ],
    ['Inspired volume', { reading: { ...before.reading, inspiredVolumeL: 3.3 } }, '–', '3.30 L BTPS'],
    ['Volume check', { reading: { ...before.reading, volumeCheckL: 3.31 } }, '–', '3.31 L BTPS'],
    ['Breath-hold time', { reading: { ...before.reading, breathHoldS: 10.1 } }, '–', '10.1 s'],
    [
      'VA is converted',
      { conversion: { kind: 'computed', assumed: 'ATPD' } },
      'fixed factor 1',
      'computed from the room, dry test gas',
    ],
    ['Analyzer’s dead space', { analyzerDeadSpaceL: 0.15 }, '0 mL', '150 mL'],
    ['Left on the syringe', { attached: [{ name: 'Filter', volumeL: 0.035 }] }, '–', 'Filter, 35 mL'],
    ['Syringe’s dead space', { syringe: { ...before.syringe, deadSpaceL: 0.11 } }, '0 mL', '110 mL'],
    [
      'Drawn into the syringe',
      { syringe: { ...before.syringe, strokeL: 2, volumeInsideL: 1 } },
      '3.00 L, plunger home',
      '2.00 L, plunger at 1.00 L',
    ],
    ['Comment', { comment: 'Cold room' }, '–', 'Cold room'],
  ])('says what %s was and is', async (name, change, from, to) => {
    expect(changesBetween(before, { ...before, ...change }, await fields())).toEqual([{ name, from, to }]);
  });

  it('tells two analyzers of one label apart', async () => {
    const twin = { ...content(0, 3.4), analyzerId: 'analyzer-twin' };
    const { logbook } = await opened([
      draft('analyzer-added', {
        ...analyzerAdded,
        analyzerId: 'analyzer-twin',
      }),
    ]);
    expect(changesBetween(before, twin, fieldsOf(logbook, 'Europe/Oslo'))).toEqual([
      { name: 'Analyzer', from: 'Room 2', to: 'Room 2' },
    ]);
  });
});
