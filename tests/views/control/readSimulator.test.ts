import { describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import {
  draftOfSimulator,
  type LevelDraft,
  type SimulatorDraft,
} from '../../../src/views/control/controlDraft.ts';
import { readSimulator } from '../../../src/views/control/readSimulator.ts';
import { controlId } from '../controlDrafts.ts';
import { draft, ids, opened, week } from '../laboratory.ts';
import { typedGases, typedLevel, typedSession } from './typed.ts';

const now = Date.parse(week(6));

async function read(changes: Partial<SimulatorDraft> = {}, entries: Parameters<typeof opened>[0] = []) {
  const { logbook } = await opened(entries);
  return readSimulator(typedSession(changes), { logbook, now });
}

describe('readSimulator', () => {
  it('takes a target from the certificate, in its own unit', async () => {
    const { control, targets } = await read({
      low: typedLevel({ target: '4,7', targetUnit: 'mmol/min/kPa', va: '4.5', breathHold: '10.1' }),
      high: typedLevel({ isMade: false }),
    });
    // 1 mmol/min/kPa is 2.987 mL/min/mmHg: from memory of the 2017 ERS/ATS standard.
    expect(targets.low).toBeCloseTo(4.7 * 2.987, 9);
    expect(control?.levels).toEqual([
      {
        level: 'low',
        targetMlMinMmHg: targets.low,
        basis: { kind: 'certificate', dlco: 4.7, dlcoUnit: 'mmol/min/kPa' },
        reading: { dlco: 14.2, dlcoUnit: 'mL/min/mmHg', vaL: 4.5, breathHoldS: 10.1 },
      },
    ]);
    const { simulator, edition } = publishedCheckLimits;
    expect(control?.limits).toEqual({ edition, ...simulator });
  });

  it('computes a target from the gases by the single-breath equation, whatever the unit of pressure', async () => {
    const { targets, control } = await read();
    expect(targets.high).toBeCloseTo(17.5093, 4);
    expect(control?.levels[1]?.basis).toEqual({
      kind: 'computed',
      inspired: { co: 0.003, tracer: 0.003 },
      alveolar: { co: 0.0012, tracer: 0.0021 },
      vaBtpsL: 4.5,
      breathHoldS: 10,
      barometricMmHg: 760,
    });
    const inHectopascal = await read({ high: typedGases({ pressure: '1013', pressureUnit: 'hPa' }) });
    expect(inHectopascal.targets.high).toBeCloseTo(17.5093, 4);
  });

  it.each<[string, Partial<LevelDraft>, string, RegExp]>([
    ['a tracer that grew', { alveolarTracer: '0.31' }, 'high.alveolarTracer', /can only be diluted/],
    ['CO that grew', { alveolarCo: '0.31' }, 'high.alveolarCo', /More than was breathed in/],
    ['CO diluted as the tracer is', { alveolarCo: '0.210' }, 'high.alveolarCo', /nothing would be taken up/],
    ['CO in ppm', { inspiredCo: '3000' }, 'high.inspiredCo', /looks like ppm \(0\.3 %\)/],
    ['CO as a fraction', { inspiredCo: '0.003' }, 'high.inspiredCo', /looks like a fraction \(0\.3 %\)/],
    ['no breath-hold', { targetBreathHold: '0' }, 'high.targetBreathHold', /cannot be/],
    ['a vacuum', { pressure: '40' }, 'high.pressure', /cannot be/],
    ['no uptake', { dlco: '-3' }, 'high.dlco', /cannot be/],
  ])('refuses %s beside its field', async (_, changes, field, message) => {
    const { errors, control } = await read({ high: typedGases(changes) });
    expect(Object.keys(errors)).toEqual([field]);
    expect(Object.values(errors)[0]?.message).toMatch(message);
    expect(control).toBeNull();
  });

  it('asks for what a ticked level lacks, and for a level where none is ticked', async () => {
    const { missing } = await read({ low: typedLevel({ target: '', dlco: '' }) });
    expect(Object.keys(missing)).toEqual(['low.target', 'low.dlco']);
    const none = await read({ low: typedLevel({ isMade: false }), high: typedLevel({ isMade: false }) });
    expect(none.missing).toEqual({ low: expect.stringMatching(/^Tick the level/) });
    expect(none.control).toBeNull();
  });

  it('wonders at levels that are exchanged, and at a cylinder that has expired', async () => {
    const cylinder = draft('cylinder-added', {
      cylinderId: 'cylinder-of-mix-one',
      label: 'Mix 1',
      serial: '',
      contents: [{ gas: 'CO', fraction: 0.003 }],
      expiresOn: '2026-01-31',
    });
    const { warnings, control } = await read(
      { low: typedLevel({ target: '28', cylinderId: 'cylinder-of-mix-one' }) },
      [cylinder],
    );
    expect(warnings.high).toMatch(/not above that of the low level/);
    expect(warnings['low.cylinderId']).toBe('Mix 1 has expired: its last day was 31 Jan 2026.');
    expect(control?.levels[0]?.cylinderId).toBe('cylinder-of-mix-one');
  });

  it('asks about a reading that would be near its target in the other unit, and not about a fault of any size', async () => {
    // 14.2 mL/min/mmHg are 4.754 mmol/min/kPa: a third of the number, which no fault of an analyzer makes at once.
    const slipped = await read({ low: typedLevel({ dlco: '4.754' }) });
    const doubt = 'In mmol/min/kPa this would be near its target. Are the units of both right?';
    expect(slipped.warnings).toEqual({ 'low.dlco': doubt });
    expect(slipped.questions).toEqual([`DLCO of the low level is 4.754 mL/min/mmHg. ${doubt}`]);
    expect(slipped.control).not.toBeNull();
    const target = await read({
      low: typedLevel({ target: '4.7', dlco: '4.754', dlcoUnit: 'mmol/min/kPa' }),
    });
    expect(target.warnings['low.dlco']).toMatch(/^In mL\/min\/mmHg this would be near its target\./);
    for (const dlco of ['14', '9', '7', '25']) {
      const { warnings, questions } = await read({ low: typedLevel({ dlco }) });
      expect([dlco, warnings, questions]).toEqual([dlco, {}, []]);
    }
  });

  it('reads back what was written, digit for digit', async () => {
    const typed = await read({
      high: typedGases({ alveolarCo: '0.129', inspiredTracer: '9.7', alveolarTracer: '7.3' }),
    });
    if (typed.control === null) throw new Error('not read');
    const judged = { word: 'pass' as const, establishing: true, failureOpen: false, series: [] };
    const series = {
      name: 'low' as const,
      value: 0,
      withinPublished: true,
      n: 0,
      mean: null,
      sd: null,
      z: null,
      signals: [],
    };
    const { logbook } = await opened([
      draft('control-recorded', {
        controlId: controlId(0),
        control: typed.control,
        judged: { ...judged, series: [series] },
      }),
    ]);
    const amending = logbook.controls[0];
    if (amending?.control.kind !== 'simulator') throw new Error('no session');
    const again = readSimulator(draftOfSimulator(amending.control, 'mmHg'), { logbook, now, amending });
    expect(again.control).toEqual(typed.control);
    expect(again.control?.analyzerId).toBe(ids.analyzer);
  });
});
