import { describe, expect, it } from 'vitest';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import type { Logbook, LoggedRun } from '../../../src/journal/logbook.ts';
import { assessOnTheBench } from '../../../src/views/runForm/assessOnTheBench.ts';
import type { BenchDraft } from '../../../src/views/runForm/benchDraft.ts';
import { draftOfRun, draftOnAnalyzer } from '../../../src/views/runForm/draftMoves.ts';
import { readBenchDraft } from '../../../src/views/runForm/readBenchDraft.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, run, technologistDraft, tenGoodRuns, theRun, week } from '../laboratory.ts';
import { localText } from './drafts.ts';

const now = Date.parse(week(20));
const amend = (amending: LoggedRun, logbook: Logbook, changes: Partial<BenchDraft> = {}) =>
  readBenchDraft({ ...draftOfRun(amending), ...changes }, { logbook, now, amending });

async function withRun(recorded: EntryDraft, ...more: readonly EntryDraft[]) {
  const { logbook } = await opened([recorded, ...more]);
  return { logbook, amending: theRun(logbook, 0) };
}

/** The content of a run, without what only its entry has. */
function contentOf({ body }: LoggedRun) {
  const { runId: _, origin: __, judged: ___, ...content } = body;
  return content;
}

describe('the form of an amended run', () => {
  it.each<[string, EntryDraft]>([
    ['a plain run', run(0, 3.4)],
    [
      // 101.1 kPa is 758.31 mmHg and a bit; 0.29 · 100 is not 29 in binary.
      'units as typed and a humidity that binary cannot hold',
      run(0, 3.45, {
        ambient: { temperatureC: 21.5, barometricMmHg: 758.3123456789, relativeHumidity: 0.29 },
        pressureAsTyped: { value: 101.1, unit: 'kPa' },
      }),
    ],
    [
      'seconds that no field shows, blanks at the end of a comment, and all that may be known',
      run(0, 3.45, {
        madeAt: '2026-01-05T08:00:31.250Z',
        comment: 'Cold room ',
        reading: {
          vaL: 3.455,
          vaReportedAs: 'ATPS',
          dlco: -0.04,
          dlcoUnit: 'mmol/min/kPa',
          inspiredVolumeL: 3.32,
          volumeCheckL: 3.31,
          breathHoldS: 10.1,
        },
        conversion: { kind: 'computed', assumed: 'ATPS' },
        syringe: { strokeL: 2, volumeInsideL: 1, deadSpaceL: 0.11 },
        analyzerDeadSpaceL: 0.15,
      }),
    ],
  ])('reads back untouched as the very same content: %s', async (_what, recorded) => {
    const { logbook, amending } = await withRun(recorded);
    const reading = amend(amending, logbook);
    expect(reading).toMatchObject({ errors: {}, missing: [], questions: [], warnings: {} });
    expect(reading.run).toEqual(contentOf(amending));
  });

  it('changes what is typed over and nothing else', async () => {
    const { logbook, amending } = await withRun(run(0, 3.4));
    const { reading } = contentOf(amending);
    expect(amend(amending, logbook, { va: '3.04' }).run).toEqual({
      ...contentOf(amending),
      reading: { ...reading, vaL: 3.04 },
    });
  });

  it('works the pressure out anew once its number or its unit is typed over', async () => {
    const { logbook, amending } = await withRun(run(0, 3.4));
    const typed = amend(amending, logbook, { pressure: '100', pressureUnit: 'kPa' }).run;
    // 1 mmHg is 133.322387415 Pa (NIST SP 811, B.8).
    expect(typed?.ambient.barometricMmHg).toBeCloseTo(100_000 / 133.322387415, 6);
    expect(typed?.pressureAsTyped).toEqual({ value: 100, unit: 'kPa' });
  });

  it('drops a value that is cleared', async () => {
    const recorded = run(0, 3.4, {
      ambient: { temperatureC: 22, barometricMmHg: 760, relativeHumidity: 0.45 },
    });
    const { logbook, amending } = await withRun(recorded);
    expect(amend(amending, logbook, { humidity: '' }).run?.ambient).toEqual({
      temperatureC: 22,
      barometricMmHg: 760,
    });
  });

  it('keeps the second when the minute is typed again, and takes another minute as it is', async () => {
    const { logbook, amending } = await withRun(run(0, 3.4, { madeAt: '2026-01-05T08:00:31.250Z' }));
    const at = Date.parse('2026-01-05T08:00:00.000Z');
    expect(amend(amending, logbook, { madeAt: localText(at) }).run?.madeAt).toBe('2026-01-05T08:00:31.250Z');
    expect(amend(amending, logbook, { madeAt: localText(at + 60_000) }).run?.madeAt).toBe(
      '2026-01-05T08:01:00.000Z',
    );
    expect(amend(amending, logbook, { madeAt: '0026-01-05T08:00' }).errors.madeAt?.message).toMatch(
      /clear the field for the time that stands/,
    );
  });

  it('goes on naming who made it, though retired, and lets nobody else retired be chosen', async () => {
    const retired = draft('technologist-retired', { technologistId: ids.supervisor, reason: 'left' });
    const { logbook, amending } = await withRun(run(0, 3.4), technologistDraft(), retired);
    expect(amend(amending, logbook).missing).toEqual([]);
    const byOther = run(0, 3.4, { technologistId: ids.technologist });
    const other = await withRun(byOther, technologistDraft(), retired);
    expect(amend(other.amending, other.logbook, { technologistId: ids.supervisor }).missing).toEqual([
      'technologistId',
    ]);
  });

  it('does not warn of an analyzer and a syringe that were in use on the run’s day', async () => {
    const { logbook, amending } = await withRun(
      run(0, 3.4, { madeAt: '2025-12-30T08:00:00.000Z' }),
      draft('analyzer-retired', { analyzerId: ids.analyzer, reason: 'sold' }),
      draft('syringe-retired', { syringeId: ids.syringe, reason: 'worn' }),
    );
    expect(amend(amending, logbook).warnings).toEqual({});
    const later = amend(amending, logbook, { madeAt: localText(now - 86_400_000) }).warnings;
    expect(Object.keys(later)).toEqual(['analyzerId', 'syringeId']);
  });

  it('fills in what another analyzer reports in, and leaves every number and the barometer’s unit', () => {
    const typed = { ...draftOfRun({ body: bodyOf(run(0, 3.4)) }), pressureUnit: 'hPa' as const };
    const moved = draftOnAnalyzer(typed, 'analyzer-room-5', {
      vaReportedAs: 'ATPS',
      dlcoUnit: 'mmol/min/kPa',
    });
    expect(moved).toEqual({
      ...typed,
      analyzerId: 'analyzer-room-5',
      vaReportedAs: 'ATPS',
      dlcoUnit: 'mmol/min/kPa',
    });
  });
});

function bodyOf(recorded: EntryDraft) {
  if (recorded.kind !== 'run-recorded') throw new Error('no run');
  return recorded.body;
}

describe('what is asked before an amendment', () => {
  const three = () => opened([run(0, 3), run(1, 3.01), run(2, 3.02)]);

  it('is nothing about where an old run lies while its analyzer and date stay', async () => {
    const { logbook } = await three();
    expect(amend(theRun(logbook, 0), logbook, { va: '3.1' }).questions).toEqual([]);
  });

  it('is whether the new date is right: before the last run, or still to come', async () => {
    const { logbook } = await three();
    const earlier = amend(theRun(logbook, 2), logbook, {
      madeAt: localText(Date.parse(week(0)) + 3_600_000),
    });
    expect(earlier.questions).toEqual([expect.stringMatching(/this one is dated before it/)]);
    const toCome = amend(theRun(logbook, 2), logbook, { madeAt: localText(now + 86_400_000) });
    expect(toCome.questions).toEqual([expect.stringMatching(/still to come/)]);
  });

  it('is not whether the run is the same as itself, but whether it is the same as another', async () => {
    const { logbook } = await three();
    expect(amend(theRun(logbook, 1), logbook, { comment: 'x' }).questions).toEqual([]);
    const asTheFirst = amend(theRun(logbook, 1), logbook, {
      va: '3',
      madeAt: localText(Date.parse(week(0))),
    });
    expect(asTheFirst.questions).toContainEqual(expect.stringMatching(/The same readings were recorded/));
  });

  it('is whether it belongs before the other analyzer’s last run, once it is moved there', async () => {
    const { logbook } = await opened([
      draft('analyzer-added', { ...analyzerAdded, analyzerId: 'analyzer-room-5', label: 'Room 5' }),
      run(0, 3),
      run(1, 3, { analyzerId: 'analyzer-room-5' }),
    ]);
    const moved = amend(theRun(logbook, 0), logbook, { analyzerId: 'analyzer-room-5' });
    expect(moved.questions).toEqual([expect.stringMatching(/dated before it/)]);
  });
});

describe('the verdict of an amendment', () => {
  // tenGoodRuns: mean 3.000 L, sample SD 0.0216025 L (Python 3, statistics.mean and statistics.stdev).
  it('is given by the runs before the run, itself left out', async () => {
    const { logbook, assessments } = await opened([...tenGoodRuns(), run(10, 3.4), run(11, 3.0)]);
    const amending = theRun(logbook, 10);
    const content = amend(amending, logbook, { va: '3.04' }).run;
    if (!content) throw new Error('no run was read');
    const { va, verdict } = assessOnTheBench(content, { logbook, assessments }, amending.id);
    expect(va).toMatchObject({ n: 10 });
    expect(va.z).toBeCloseTo(0.04 / 0.0216025, 3);
    expect(verdict.word).toBe('pass');
    // Were the run as it stands among those before it, its failure would still be open.
    expect(va.failureOpen).toBe(false);
  });
});

describe('a run with a hose left on the syringe, read in °F', () => {
  const hose = { name: 'Hose', volumeL: 0.08 };
  const recorded = run(0, 3.45, {
    ambient: { temperatureC: 22.5, barometricMmHg: 760 },
    temperatureAsTyped: { value: 72.5, unit: '°F' },
    attached: [hose],
    syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.19 },
    investigates: { runId: ids.run(7), check: 'repeat' },
  });

  it('keeps all of it where nothing is typed over, and counts what is taken off', async () => {
    const { logbook } = await opened([recorded]);
    const amending = theRun(logbook, 0);
    const readAs = (changes: Partial<BenchDraft>) => {
      const reading = readBenchDraft({ ...draftOfRun(amending), ...changes }, { logbook, now: 0, amending });
      if (!reading.run) throw new Error(JSON.stringify(reading));
      return reading.run;
    };
    const kept = {
      ambient: { temperatureC: 22.5 },
      temperatureAsTyped: { value: 72.5, unit: '°F' },
      attached: [hose],
      syringe: { deadSpaceL: 0.19 },
      investigates: { runId: ids.run(7), check: 'repeat' },
    };
    expect(readAs({})).toMatchObject(kept);
    expect(readAs({ comment: 'again' })).toMatchObject(kept);
    const without = readAs({ attached: [] });
    expect(without).not.toHaveProperty('attached');
    expect(without.syringe.deadSpaceL).toBe(0.11);
    const inCelsius = readAs({ temperature: '21', temperatureUnit: '°C' });
    expect(inCelsius).not.toHaveProperty('temperatureAsTyped');
    expect(inCelsius.ambient.temperatureC).toBe(21);
  });
});
