// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { AnalyzerDescription } from '../../../src/journal/entries.ts';
import type { Analyzer } from '../../../src/journal/logbook.ts';
import {
  consequenceOfChange,
  consequenceOfSyringeChange,
  movesTheMean,
} from '../../../src/views/equipment/consequences.ts';
import { addPerson, changeAnalyzer, recordEvent, retire } from '../../../src/views/equipment/makeEntries.ts';
import { analyzerDraftOf, emptyAnalyzer, readAnalyzer } from '../../../src/views/equipment/readAnalyzer.ts';
import { emptyPerson, readPerson } from '../../../src/views/equipment/readPerson.ts';
import { emptySyringe, readSyringe, syringeDraftOf } from '../../../src/views/equipment/readSyringe.ts';
import { startBaseline } from '../../../src/views/newBaseline.ts';
import { analyzerAdded, sealChain } from '../../journal/fixtures.ts';
import { ids, opened } from '../laboratory.ts';

const errorsOf = (reading: { ok: boolean; errors?: object }) => reading.errors ?? {};

describe('readPerson', () => {
  it('asks for name and initials, and takes blanks for nothing', () => {
    expect(Object.keys(errorsOf(readPerson({ ...emptyPerson, name: '  ' })))).toEqual(['name', 'initials']);
    expect(errorsOf(readPerson({ ...emptyPerson, name: 'Orla Fenn', initials: 'ORLAF' }))).toEqual({
      initials: 'Four letters at most.',
    });
  });

  it('trims what was typed', () => {
    expect(readPerson({ name: ' Orla Fenn ', initials: ' OF', role: 'supervisor' })).toEqual({
      ok: true,
      description: { name: 'Orla Fenn', initials: 'OF', role: 'supervisor' },
    });
  });
});

describe('readSyringe', () => {
  const typed = { ...emptySyringe, label: '3 L syringe A', deadSpaceMl: '110' };

  it('reads dead space in mL and dates that are not known as null', () => {
    expect(readSyringe(typed)).toEqual({
      ok: true,
      description: {
        label: '3 L syringe A',
        serial: '',
        volumeL: 3,
        deadSpaceL: 0.11,
        calibrationDueOn: null,
        leakCheckDueOn: null,
      },
    });
  });

  it('takes no dead space for granted: empty is asked for, 0 is an answer', () => {
    expect(errorsOf(readSyringe({ ...typed, deadSpaceMl: '' }))).toEqual({
      deadSpaceMl: 'Type the dead space in mL; 0 if there is none.',
    });
    expect(readSyringe({ ...typed, deadSpaceMl: '0' })).toMatchObject({
      ok: true,
      description: { deadSpaceL: 0 },
    });
  });

  it('recognises a dead space typed in litres', () => {
    expect(errorsOf(readSyringe({ ...typed, deadSpaceMl: '0.11' }))).toEqual({
      deadSpaceMl: '0.11 mL is next to nothing. Was 110 mL meant?',
    });
  });

  it('is typed again as it was read', () => {
    const dated = {
      ...typed,
      deadSpaceMl: '62.5',
      calibrationDueOn: '2026-09-30',
      leakCheckDueOn: '2026-06-30',
    };
    const reading = readSyringe(dated);
    expect(reading.ok && syringeDraftOf(reading.description)).toEqual(dated);
  });

  it.each([
    ['3.00', '110'],
    ['3.005', '110.35'],
    ['2.996', '0'],
  ])('is typed again to the last digit: %s L, %s mL', (volumeL, deadSpaceMl) => {
    const exact = { ...typed, volumeL, deadSpaceMl };
    const reading = readSyringe(exact);
    expect(reading.ok && syringeDraftOf(reading.description)).toEqual(exact);
  });
});

describe('readAnalyzer', () => {
  const typed = { ...emptyAnalyzer, label: 'Room 2', syringeId: ids.syringe };

  it.each([
    ['computed-dry', { kind: 'computed', assumed: 'ATPD' }],
    ['computed-saturated', { kind: 'computed', assumed: 'ATPS' }],
    ['fixed', { kind: 'fixed', factor: 0.91 }],
  ] as const)('reads the conversion %s', (conversion, expected) => {
    expect(readAnalyzer({ ...typed, conversion })).toMatchObject({
      ok: true,
      description: { conversion: expected },
    });
  });

  it('takes the factor for the way out of BTPS and names the one for the way in: 1/1.1 = 0.9091', () => {
    const errors = errorsOf(readAnalyzer({ ...typed, conversion: 'fixed', fixedFactor: '1.1' }));
    expect(errors).toEqual({
      fixedFactor:
        '1.1 cannot be: it looks like the factor from the room to BTPS (0.9091). Expected: fixed factor from 0.7 to 1.',
    });
  });

  it('looks at the factor only where it is in force', () => {
    expect(readAnalyzer({ ...typed, fixedFactor: 'x' }).ok).toBe(true);
    expect(readAnalyzer({ ...typed, conversion: 'fixed', fixedFactor: '' }).ok).toBe(false);
  });

  it('needs a name and a syringe', () => {
    expect(Object.keys(errorsOf(readAnalyzer(emptyAnalyzer)))).toEqual(['label', 'syringeId']);
  });

  it('is typed again as it was read, for each conversion and plunger', () => {
    for (const conversion of ['computed-dry', 'computed-saturated', 'fixed'] as const) {
      for (const plunger of ['home', 'at-1-l'] as const) {
        const draft = {
          ...typed,
          conversion,
          plunger,
          analyzerDeadSpaceMl: '150',
          dlcoUnit: 'mmol/min/kPa' as const,
        };
        const reading = readAnalyzer(draft);
        expect(reading.ok && analyzerDraftOf(reading.description)).toEqual(draft);
      }
    }
  });

  it('typed again moves no mean, however many digits its dead space has', () => {
    const reading = readAnalyzer({ ...typed, analyzerDeadSpaceMl: '110.35' });
    if (!reading.ok) throw new Error('The analyzer could not be read.');
    const again = readAnalyzer(analyzerDraftOf(reading.description));
    expect(again.ok && consequenceOfChange(reading.description, again.description, false)).toBeNull();
  });
});

const { analyzerId: _, ...description } = analyzerAdded;
const changed = (changes: Partial<AnalyzerDescription>): AnalyzerDescription => ({
  ...description,
  ...changes,
});

const moving: [string, Partial<AnalyzerDescription>][] = [
  ['conversion', { conversion: { kind: 'fixed', factor: 0.91 } }],
  ['gas assumed by the conversion', { conversion: { kind: 'computed', assumed: 'ATPS' } }],
  ['reported condition', { vaReportedAs: 'ATPS' }],
  ['dead space that is subtracted', { analyzerDeadSpaceL: 0.15 }],
  ['start of the plunger', { volumeInsideL: 1 }],
];
const still: [string, Partial<AnalyzerDescription>][] = [
  ['name', { label: 'Room 3' }],
  ['place and serial number', { place: 'Cellar', serial: '4' }],
  ['units', { pressureUnit: 'kPa', dlcoUnit: 'mmol/min/kPa' }],
  ['usual route, which has series of its own', { route: 'built-in' }],
];

describe('movesTheMean', () => {
  it.each(moving)('is true for another %s', (_name, changes) => {
    expect(movesTheMean(description, changed(changes))).toBe(true);
  });
  it.each(still)('is false for another %s', (_name, changes) => {
    expect(movesTheMean(description, changed(changes))).toBe(false);
  });
  it('is false for nothing', () => {
    expect(movesTheMean(description, structuredClone(description))).toBe(false);
  });
});

describe('consequenceOfChange', () => {
  const [[, fixed] = ['', {}]] = moving;

  it('is none for a change that moves no result, open failure or not', () => {
    expect(consequenceOfChange(description, changed({ label: 'Room 3' }), true)).toBeNull();
  });

  it('is a new baseline, which is for a supervisor to start', () => {
    expect(consequenceOfChange(description, changed(fixed), false)).toMatchObject({
      only: 'supervisor',
      refused: false,
      notice: expect.stringContaining('a new baseline starts with it'),
    });
  });

  it('is refused while a failure is open: the baseline would put it aside', () => {
    expect(consequenceOfChange(description, changed(fixed), true)).toMatchObject({
      refused: true,
      notice: expect.stringContaining('close it under Review first'),
    });
  });
});

describe('consequenceOfSyringeChange', () => {
  const reading = readSyringe({ ...emptySyringe, label: 'Syringe A', deadSpaceMl: '110' });
  if (!reading.ok) throw new Error('the form of this test is not whole');
  const before = reading.description;

  it('is none while no volume changes', () => {
    expect(consequenceOfSyringeChange(before, { ...before, label: 'Syringe B' })).toBeNull();
  });

  it.each([{ deadSpaceL: 0.16 }, { volumeL: 2 }])('is a word to a supervisor for %o', (moved) => {
    expect(consequenceOfSyringeChange(before, { ...before, ...moved })).toMatchObject({
      only: 'supervisor',
      refused: false,
      notice: expect.stringContaining('moves every later result'),
    });
  });
});

describe('what the forms write', () => {
  const analyzer: Analyzer = { id: ids.analyzer, description, retired: null, history: [] };
  const now = Date.UTC(2026, 2, 2, 12);

  it('the first person adds themself; the next is added by somebody', () => {
    const someone = { name: 'Orla Fenn', initials: 'OF', role: 'technologist' } as const;
    const [first] = addPerson(someone);
    expect(first?.kind === 'technologist-added' && first.body.technologistId).toBe(first?.by);
    expect(addPerson(someone, ids.supervisor)[0]?.by).toBe(ids.supervisor);
  });

  it.each(moving)('another %s starts a baseline in the same save', (_name, changes) => {
    const entries = changeAnalyzer(analyzer, changed(changes), ids.supervisor, 'New procedure.', now);
    expect(entries.map(({ kind }) => kind)).toEqual(['analyzer-changed', 'baseline-started']);
    expect(entries[1]?.body).toMatchObject({
      analyzerId: ids.analyzer,
      from: '2026-03-02T12:00:00.000Z',
      reason: 'New procedure.',
    });
  });

  it.each(still)('another %s starts none', (_name, changes) => {
    const entries = changeAnalyzer(analyzer, changed(changes), ids.supervisor, 'Moved.', now);
    expect(entries.map(({ kind }) => kind)).toEqual(['analyzer-changed']);
  });

  it('an event starts a baseline at its own time when it is said to change the mean', () => {
    const event = {
      analyzerId: ids.analyzer,
      happenedAt: '2026-02-27T09:00:00.000Z',
      type: 'sensor',
      description: 'Flow sensor replaced.',
    } as const;
    expect(recordEvent(event, false, ids.supervisor)).toHaveLength(1);
    expect(recordEvent(event, true, ids.supervisor)[1]).toMatchObject({
      kind: 'baseline-started',
      body: { from: event.happenedAt, reason: event.description },
    });
  });

  it('is taken by the journal, each entry with an id of its own', async () => {
    const drafts = [
      ...changeAnalyzer(analyzer, changed({ volumeInsideL: 1 }), ids.supervisor, 'New procedure.', now),
      ...startBaseline(ids.analyzer, '2026-03-02T12:00:00.000Z', 'Service.', ids.supervisor),
      ...retire({ kind: 'analyzer', id: ids.analyzer }, ids.supervisor, 'Replaced.'),
      ...retire({ kind: 'syringe', id: ids.syringe }, ids.supervisor, 'Dropped.'),
      ...retire({ kind: 'technologist', id: ids.supervisor }, ids.supervisor, 'Left.'),
    ];
    expect(new Set(drafts.map(({ id }) => id)).size).toBe(drafts.length);
    await expect(sealChain(drafts)).resolves.toHaveLength(drafts.length);
    const { logbook } = await opened(drafts);
    expect(logbook.problems).toEqual([]);
    expect(logbook.analyzers.get(ids.analyzer)?.retired?.reason).toBe('Replaced.');
    expect(logbook.baselineStarts).toHaveLength(2);
  });
});
