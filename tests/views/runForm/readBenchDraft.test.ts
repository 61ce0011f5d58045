// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import { runRecorded } from '../../journal/fixtures.ts';
import { draft, ids, opened, run, technologistDraft, week } from '../laboratory.ts';
import { laboratoryWith, localText, noon, read, readRun } from './drafts.ts';

const { logbook } = await opened([technologistDraft()]);

describe('readBenchDraft', () => {
  it('reads a filled form as a run, with what analyzer and syringe add', () => {
    const { errors, missing, warnings, questions, run } = read({ comment: '  new bag ' }, logbook);
    expect({ errors, missing, warnings, questions }).toEqual({
      errors: {},
      missing: [],
      warnings: {},
      questions: [],
    });
    expect(run).toMatchObject({
      madeAt: '2026-03-02T12:00:00.000Z',
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      ambient: { temperatureC: 22, barometricMmHg: 760 },
      pressureAsTyped: { value: 760, unit: 'mmHg' },
      reading: { vaL: 3.45, vaReportedAs: 'BTPS', dlco: 0.12, dlcoUnit: 'mL/min/mmHg' },
      conversion: { kind: 'computed', assumed: 'ATPD' },
      syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.11 },
      comment: 'new bag',
    });
  });

  it('keeps a pressure as typed beside mmHg: 101.325 kPa and 1013.25 hPa are 760 mmHg', () => {
    for (const [pressure, pressureUnit] of [
      ['101.325', 'kPa'],
      ['1013.25', 'hPa'],
    ] as const) {
      const { ambient, pressureAsTyped } = readRun({ pressure, pressureUnit }, logbook);
      expect(ambient.barometricMmHg).toBeCloseTo(760, 3);
      expect(pressureAsTyped).toEqual({ value: Number(pressure), unit: pressureUnit });
    }
  });

  it('keeps humidity as a fraction and leaves out what was not typed', () => {
    expect(readRun({ humidity: '45' }, logbook).ambient.relativeHumidity).toBe(0.45);
    const run = readRun({}, logbook);
    expect(run.ambient).not.toHaveProperty('relativeHumidity');
    expect(run.reading).not.toHaveProperty('inspiredVolumeL');
    expect(run.reading).not.toHaveProperty('breathHoldS');
  });

  it('names everything that is missing, in the order of the form, and calls none of it wrong', () => {
    const { missing, errors, run } = read(emptyDraft, logbook);
    expect(missing).toEqual([
      'analyzerId',
      'technologistId',
      'syringeId',
      'temperature',
      'pressure',
      'va',
      'dlco',
    ]);
    expect(errors).toEqual({});
    expect(run).toBeNull();
  });

  it('judges before anybody has signed, and still misses the technologist', () => {
    const { run, missing } = read({ technologistId: '' }, logbook);
    expect(run).not.toBeNull();
    expect(missing).toEqual(['technologistId']);
  });

  it('does not let a retired person sign', async () => {
    const retired = await opened([
      technologistDraft(),
      draft('technologist-retired', { technologistId: ids.technologist, reason: 'Left the laboratory.' }),
    ]);
    expect(read({ technologistId: ids.technologist }, logbook).missing).toEqual([]);
    expect(read({ technologistId: ids.technologist }, retired.logbook).missing).toEqual(['technologistId']);
  });

  it('gives every wrong value its own message and no run', () => {
    const { errors, missing, run } = read(
      { temperature: '72', pressure: '7.6', va: '33', dlco: 'abc', breathHold: '1.010,1' },
      logbook,
    );
    expect(Object.keys(errors).sort()).toEqual(['breathHold', 'dlco', 'pressure', 'temperature', 'va']);
    expect(errors.temperature?.message).toMatch(/°F/);
    expect(errors.breathHold?.message).toMatch(/more than one mark/);
    expect(missing).toEqual([]);
    expect(run).toBeNull();
  });

  it('reads a decimal comma in every field as it reads a point', () => {
    const pointed = { temperature: '22.5', pressure: '1013.2', pressureUnit: 'hPa', va: '3.45' } as const;
    const more = { dlco: '-0.12', inspiredVolume: '3.32', volumeCheck: '3.31', breathHold: '10.1' };
    const inPoints = { ...pointed, ...more, humidity: '45.5' };
    const inCommas = Object.fromEntries(
      Object.entries(inPoints).map(([field, text]) => [field, text.replace('.', ',')]),
    );
    const { run, errors } = read(inCommas, logbook);
    expect(errors).toEqual({});
    expect(run?.reading).toMatchObject({ vaL: 3.45, dlco: -0.12, inspiredVolumeL: 3.32, volumeCheckL: 3.31 });
    expect(run).toEqual(read(inPoints, logbook).run);
  });

  it('needs the humidity for a VA reported as ATP, and only then', () => {
    expect(read({ vaReportedAs: 'ATP' }, logbook)).toMatchObject({ missing: ['humidity'], run: null });
    expect(read({ vaReportedAs: 'ATP', humidity: '50' }, logbook).run).not.toBeNull();
    expect(read({ vaReportedAs: 'ATPS' }, logbook).missing).toEqual([]);
  });
});

describe('the date of a run', () => {
  it('is this moment while nothing is typed', () => {
    expect(readRun({ madeAt: '' }, logbook).madeAt).toBe('2026-03-02T12:00:00.000Z');
  });

  it('is the local time that was typed', () => {
    const earlier = noon - 3 * 86_400_000;
    expect(readRun({ madeAt: localText(earlier) }, logbook).madeAt).toBe(new Date(earlier).toISOString());
  });

  it.each(['yesterday', '2026-13-01T08:00', '0026-03-02T08:00', '+012026-03-02T08:00'])(
    'is refused when it is no day of this age: %s',
    (madeAt) => {
      const { errors, run } = read({ madeAt }, logbook);
      expect(errors.madeAt?.message).toMatch(/year of four digits/);
      expect(run).toBeNull();
    },
  );

  it('is asked about when it is still to come, but for a minute of two clocks', () => {
    expect(read({ madeAt: localText(noon + 120_000) }, logbook).questions).toEqual([
      expect.stringMatching(/still to come/),
    ]);
    expect(read({ madeAt: localText(noon + 60_000) }, logbook).questions).toEqual([]);
  });

  it("is asked about when it lies before the analyzer's last run, which is named", async () => {
    const later = await opened([run(6, 3)]);
    const [question, ...more] = read({ madeAt: localText(Date.parse(week(5))) }, later.logbook).questions;
    expect(question).toMatch(/^The last run of this analyzer was made on 16 Feb 2026.*dated before it/);
    expect(more).toEqual([]);
    expect(read({ madeAt: localText(Date.parse(week(7))) }, later.logbook).questions).toEqual([]);
  });

  it('is not measured against a voided run', async () => {
    const voided = await opened([
      run(6, 3),
      draft('run-voided', { runId: ids.run(6), reason: 'Wrong analyzer.' }),
    ]);
    expect(read({ madeAt: localText(Date.parse(week(5))) }, voided.logbook).questions).toEqual([]);
  });
});

describe('an identical run', () => {
  const recorded = runRecorded(1, { madeAt: '2026-03-02T11:59:30.000Z' });

  it('within a minute is asked about', async () => {
    const { logbook: withRun } = await opened([draft('run-recorded', recorded)]);
    expect(read({}, withRun).questions).toEqual([
      expect.stringMatching(/^The same readings were recorded.*another run\?$/),
    ]);
  });

  it('after more than a minute, or with another reading, is another run', async () => {
    const { logbook: withRun } = await opened([draft('run-recorded', recorded)]);
    expect(read({}, withRun, noon + 31_000).questions).toEqual([]);
    expect(read({ va: '3.46' }, withRun).questions).toEqual([]);
    expect(read({ dlco: '0.13' }, withRun).questions).toEqual([]);
  });
});

describe('a clock that was set back', () => {
  it('is asked about when the newest entry was written later than now', () => {
    // The laboratory's entries are written on 1 January 2026.
    const before = Date.UTC(2025, 11, 31, 12);
    expect(read({}, logbook, before).questions).toEqual([
      expect.stringMatching(/Has the clock been set back\?$/),
    ]);
  });
});

describe('equipment that should not be used', () => {
  it('a retired analyzer is warned about, not refused', async () => {
    const { logbook: retired } = await opened([
      draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'Replaced.' }),
    ]);
    const { warnings, run } = read({}, retired);
    expect(warnings.analyzerId).toMatch(/^Room 2 was retired on /);
    expect(run).not.toBeNull();
  });

  it('a syringe is overdue from the day after its date, for calibration and leak check alike', async () => {
    const dated = await laboratoryWith({
      syringe: { calibrationDueOn: '2026-03-01', leakCheckDueOn: '2026-02-01' },
    });
    expect(read({}, dated).warnings.syringeId).toBe(
      'Dedicated 3 L syringe is overdue: calibration was due on 1 Mar 2026, leak check was due on 1 Feb 2026.',
    );
    const dueToday = await laboratoryWith({ syringe: { calibrationDueOn: '2026-03-02' } });
    expect(read({}, dueToday).warnings).toEqual({});
  });

  it("a syringe's dates are measured against the day of the run, not of the typing", async () => {
    const dated = await laboratoryWith({ syringe: { calibrationDueOn: '2026-02-20' } });
    expect(read({ madeAt: localText(noon - 14 * 86_400_000) }, dated).warnings).toEqual({});
  });

  it('a retired syringe is warned about', async () => {
    const { logbook: retired } = await opened([
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'Dropped.' }),
    ]);
    expect(read({}, retired).warnings.syringeId).toMatch(/was retired on /);
  });
});

describe('a jump of the pressure', () => {
  it("of more than 60 mmHg from the last run's asks for the unit, without stopping anybody", async () => {
    const { logbook: withRun } = await opened([run(0, 3)]); // made at 760 mmHg
    const { warnings, run: read690 } = read({ pressure: '690' }, withRun);
    expect(warnings.pressure).toBe("Far from the last run's 760 mmHg. Is the unit right (mmHg)?");
    expect(read690).not.toBeNull();
    expect(read({ pressure: '705' }, withRun).warnings).toEqual({});
    expect(read({ pressure: '690' }, logbook).warnings).toEqual({});
  });
});

describe('an inspired volume', () => {
  // 0.56 L BTPS × 0.8928 (22 °C, 760 mmHg, dry: derived) = 0.49997 L; × 0.8928 of 0.57 L is 0.5089 L.
  it('that does not exceed the dead space the analyzer subtracts is refused with the reason', async () => {
    const subtracting = await laboratoryWith({ analyzer: { analyzerDeadSpaceL: 0.5 } });
    const { errors, run } = read({ inspiredVolume: '0.56' }, subtracting);
    expect(errors.inspiredVolume?.message).toMatch(
      /0\.50 L .* is not more than the 0\.50 L of dead space that Room 2 subtracts/,
    );
    expect(run).toBeNull();
    expect(read({ inspiredVolume: '0.57' }, subtracting).errors).toEqual({});
  });

  it('is asked of the syringe when none is typed: one that leaves no breath is refused by name', async () => {
    const tooSmall = await laboratoryWith({ syringe: { volumeL: 1 }, analyzer: { volumeInsideL: 1 } });
    const { errors, run } = read({}, tooSmall);
    expect(errors.syringeId?.message).toMatch(/^Dedicated 3 L syringe holds 1\.00 L: too small for Room 2/);
    expect(run).toBeNull();
  });
});
