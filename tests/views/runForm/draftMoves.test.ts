// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Logbook } from '../../../src/journal/logbook.ts';
import {
  type BenchDraft,
  benchDraftSchema,
  emptyDraft,
  touched,
} from '../../../src/views/runForm/benchDraft.ts';
import { draftAfterRecording, draftForAnalyzer } from '../../../src/views/runForm/draftMoves.ts';
import { draftForNewRun, draftOfRepeat } from '../../../src/views/runForm/draftsToBegin.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, run, theRun } from '../laboratory.ts';
import { filled, laboratoryWith, noon } from './drafts.ts';

const analyzerOf = (book: Logbook) => {
  const analyzer = book.analyzers.get(ids.analyzer);
  if (!analyzer) throw new Error('no analyzer');
  return analyzer;
};

describe('draftForAnalyzer', () => {
  it("takes the description's syringe, route and units before the first run", async () => {
    const metric = await laboratoryWith({
      analyzer: { route: 'built-in', pressureUnit: 'hPa', dlcoUnit: 'mmol/min/kPa', vaReportedAs: 'ATPS' },
    });
    expect(draftForAnalyzer({ ...emptyDraft, temperature: '21' }, analyzerOf(metric), undefined)).toEqual({
      ...emptyDraft,
      temperature: '21',
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      route: 'built-in',
      pressureUnit: 'hPa',
      dlcoUnit: 'mmol/min/kPa',
      vaReportedAs: 'ATPS',
    });
  });

  it('remembers the last run, until the description is changed', async () => {
    const builtIn = run(0, 3, { route: 'built-in', pressureAsTyped: { value: 101.3, unit: 'kPa' } });
    const remembered = await opened([builtIn]);
    expect(
      draftForAnalyzer(emptyDraft, analyzerOf(remembered.logbook), theRun(remembered.logbook, 0)),
    ).toMatchObject({ route: 'built-in', pressureUnit: 'kPa' });
    const changed = await opened([
      builtIn,
      draft('analyzer-changed', { ...analyzerAdded, pressureUnit: 'hPa', reason: 'New barometer.' }),
    ]);
    expect(
      draftForAnalyzer(emptyDraft, analyzerOf(changed.logbook), theRun(changed.logbook, 0)),
    ).toMatchObject({
      route: 'patient-test',
      pressureUnit: 'hPa',
    });
  });

  it('keeps the unit of a number that stands in the form, and takes the laboratory’s for a temperature', async () => {
    const metric = await laboratoryWith({ analyzer: { pressureUnit: 'hPa' } });
    const typed = { ...emptyDraft, pressure: '758' };
    expect(draftForAnalyzer(typed, analyzerOf(metric), undefined, '°F')).toMatchObject({
      pressure: '758',
      pressureUnit: 'mmHg',
      temperatureUnit: '°F',
    });
    const read = { ...emptyDraft, temperature: '22' };
    expect(draftForAnalyzer(read, analyzerOf(metric), undefined, '°F').temperatureUnit).toBe('°C');
  });

  it('remembers what was left on the syringe in the last run', async () => {
    const { logbook } = await opened([run(0, 3, { attached: [{ name: 'Filter', volumeL: 0.035 }] })]);
    expect(draftForAnalyzer(emptyDraft, analyzerOf(logbook), theRun(logbook, 0)).attached).toEqual([
      { name: 'Filter', volume: '35' },
    ]);
  });
});

const at = noon - 18 * 60_000;
const carried = { kind: 'carried', analyzerId: ids.analyzer, at } as const;
const metricRun = {
  ...filled,
  pressure: '1013',
  pressureUnit: 'hPa',
  humidity: '45',
  attached: [{ name: 'Filter', volume: '35' }],
  vaReportedAs: 'ATPS',
  dlcoUnit: 'mmol/min/kPa',
} as const satisfies Partial<BenchDraft>;

describe('draftAfterRecording', () => {
  const typed: BenchDraft = {
    ...metricRun,
    attached: [...metricRun.attached],
    route: 'built-in',
    reason: 'repeat',
    madeAt: '2026-03-02T11:42',
    breathHold: '10.1',
    comment: 'x',
    investigates: { runId: ids.run(1), check: 'repeat' },
  };

  it('types every reading anew, and carries over who, with what and in which room, with its units', () => {
    expect(draftAfterRecording(typed, at, noon)).toEqual({
      ...emptyDraft,
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      attached: [{ name: 'Filter', volume: '35' }],
      route: 'built-in',
      temperature: '22',
      pressure: '1013',
      pressureUnit: 'hPa',
      humidity: '45',
      vaReportedAs: 'ATPS',
      dlcoUnit: 'mmol/min/kPa',
      origins: {
        technologistId: carried,
        syringeId: carried,
        attached: carried,
        temperature: carried,
        pressure: carried,
        humidity: carried,
      },
    });
  });

  it('keeps from run to run the moment at which a value was read', () => {
    const second = { ...draftAfterRecording(typed, at, noon), analyzerId: 'analyzer-room-5', va: '3.4' };
    const third = draftAfterRecording(touched(second, { pressure: '1012' }), noon, noon);
    expect(third.origins.temperature).toEqual(carried);
    expect(third.origins.pressure).toEqual({ kind: 'carried', analyzerId: 'analyzer-room-5', at: noon });
  });

  it('does not carry the room of another day', () => {
    const next = draftAfterRecording(typed, noon - 86_400_000, noon);
    expect(next).toMatchObject({ temperature: '', pressure: '', humidity: '', syringeId: ids.syringe });
    expect(next.origins.temperature).toBeUndefined();
  });

  it('keeps who catches up with a run of another day, and with what, as of now', () => {
    const next = draftAfterRecording(typed, noon - 10 * 86_400_000, noon);
    const now = { kind: 'carried', analyzerId: ids.analyzer, at: noon };
    expect(next).toMatchObject({
      technologistId: ids.supervisor,
      attached: [{ name: 'Filter', volume: '35' }],
    });
    expect(next.origins).toEqual({ technologistId: now, syringeId: now, attached: now });
  });
});

describe('draftOfRepeat', () => {
  it('takes all but the readings, and the room where it was read today', async () => {
    const { logbook } = await opened([
      run(0, 3.37, {
        comment: 'first',
        ambient: { temperatureC: 21.5, barometricMmHg: 760, relativeHumidity: 0.4 },
      }),
    ]);
    const repeated = theRun(logbook, 0);
    const madeAt = repeated.simulation.at;
    const soon = draftOfRepeat(repeated, '', madeAt + 60_000);
    expect(soon).toMatchObject({
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      reason: 'repeat',
      temperature: '21.5',
      pressure: '760',
      humidity: '40',
      va: '',
      dlco: '',
      comment: '',
      madeAt: '',
    });
    expect(soon.origins.temperature).toEqual({ kind: 'carried', analyzerId: ids.analyzer, at: madeAt });
    const nextWeek = draftOfRepeat(repeated, '', madeAt + 7 * 86_400_000);
    expect(nextWeek).toMatchObject({ temperature: '', pressure: '', reason: 'repeat' });
  });

  it('is made by whoever is in hand, not by whoever made the first', async () => {
    const { logbook } = await opened([run(0, 3.37)]);
    const { technologistId, origins } = draftOfRepeat(theRun(logbook, 0), ids.technologist, noon);
    expect(technologistId).toBe(ids.technologist);
    expect(origins.technologistId).toBeUndefined();
  });

  it('of another day’s run keeps its syringe, and whoever is in hand, if anybody is', async () => {
    const { logbook } = await opened([run(0, 3.37)]);
    const first = theRun(logbook, 0);
    const now = first.simulation.at + 2 * 86_400_000;
    const syringeId = { kind: 'carried', analyzerId: ids.analyzer, at: now };
    const bySame = draftOfRepeat(first, ids.supervisor, now);
    expect(bySame).toMatchObject({ technologistId: ids.supervisor, syringeId: ids.syringe });
    expect(bySame.origins).toEqual({ syringeId });
    expect(draftOfRepeat(first, '', now)).toMatchObject({ technologistId: '', origins: { syringeId } });
  });
});

describe('draftForNewRun', () => {
  it('leaves all that was typed to the half-typed run, and takes only what was carried', () => {
    const half: BenchDraft = {
      ...filled,
      pressureUnit: 'hPa',
      origins: { pressure: carried },
    };
    expect(draftForNewRun(half)).toEqual({
      ...emptyDraft,
      technologistId: ids.supervisor,
      pressure: '760',
      pressureUnit: 'hPa',
      origins: { pressure: carried },
    });
  });

  it('goes on with the room that was typed before any reading', () => {
    const room: BenchDraft = { ...filled, va: '', dlco: '' };
    expect(draftForNewRun(room)).toMatchObject({ temperature: '22', pressure: '760' });
  });
});

describe('a former version’s draft', () => {
  it('is read with a default for every field that came later', () => {
    const { attached: _, temperatureUnit: __, investigates: ___, origins: ____, ...former } = filled;
    expect(benchDraftSchema.parse(former)).toEqual(filled);
  });
});

describe('touched', () => {
  it('takes the mark off what a hand has changed, by its number or its unit, and off nothing else', () => {
    const draft = draftAfterRecording({ ...metricRun, attached: [...metricRun.attached] }, at, noon);
    const { origins } = touched(draft, { temperature: '23', pressureUnit: 'kPa' });
    expect(origins).toEqual({
      technologistId: carried,
      syringeId: carried,
      attached: carried,
      humidity: carried,
    });
  });
});
