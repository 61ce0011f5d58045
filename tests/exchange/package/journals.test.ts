import { generateKeyPairSync, sign } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import type { EntryBody, EntryDraft } from '../../../src/journal/entries.ts';
import { signedBytes } from '../../../src/journal/signature.ts';
import {
  analyzerAdded,
  draft,
  ids,
  laboratoryDrafts,
  runRecorded,
  sealChain,
  technologistAdded,
} from '../../journal/fixtures.ts';
import { type Opened, opened, packageOf } from './packages.ts';

const packages: Opened[] = [];
afterEach(() => Promise.all(packages.splice(0).map((each) => each.dispose())));

type Change = Parameters<typeof packageOf>[1];

async function inside(rows: readonly unknown[], change?: Change) {
  const { written, source } = await packageOf(rows, change);
  const read = await opened(written.bytes);
  packages.push(read);
  // Whatever the journal holds, a strict reader must be able to read every file of it.
  expect(read.read.errors).toEqual([]);
  for (const resource of read.read.resources) await resource.read({ keyed: true, relations: true });
  return { ...read, source, written };
}

const folder = new URL('../../fixtures/', import.meta.url);
const fixtures = readdirSync(folder).filter((name) => /^journal-v\d+\.jsonl$/.test(name));
const rowsOf = (name: string): unknown[] =>
  readFileSync(new URL(name, folder), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));

describe.each(fixtures)('a package of a journal as it was written, %s', (name) => {
  it('is read whole, with every entry in the audit trail', async () => {
    const rows = rowsOf(name);
    const read = await inside(rows);
    expect(await read.rows('audit-trail')).toHaveLength(rows.length);
    expect(await read.readme()).toContain('Every entry of the journal is in the audit trail.');
  });
});

describe('a package of a journal that has every kind of entry', () => {
  it('has the controls’ readings, targets and persons as they stand, to the last bit', async () => {
    const { rows, source } = await inside(rowsOf('journal-v3.jsonl'));
    const written = await rows('controls');
    const { controls, subjects } = source.logbook;
    const tests = controls.flatMap(({ id, control }) =>
      control.kind === 'biological' ? [{ id, control }] : [],
    );
    const levels = controls.flatMap(({ id, control }) =>
      control.kind === 'simulator' ? control.levels.map((level) => ({ id, level })) : [],
    );
    expect([tests.length > 0, levels.length > 1]).toEqual([true, true]);
    expect(written).toHaveLength(tests.length + levels.length);
    for (const { id, control } of tests) {
      const row = written.find(({ control_id, part }) => control_id === id && part === 'test');
      expect(row).toMatchObject({
        reported_dlco: control.reading.dlco,
        reported_va_l: control.reading.vaL,
        haemoglobin: control.haemoglobin?.value ?? null,
        haemoglobin_unit: control.haemoglobin?.unit ?? null,
        subject_code: subjects.get(control.subjectId)?.description.code,
        limit_dlco_fraction: control.limits.fraction,
        limit_dlco_ml_min_mmhg: control.limits.dlcoMlMinMmHg,
        target_ml_min_mmhg: null,
      });
    }
    for (const { id, level } of levels) {
      const row = written.find(({ control_id, part }) => control_id === id && part === level.level);
      const gases = level.basis.kind === 'computed' ? level.basis : null;
      expect(row).toMatchObject({
        reported_dlco: level.reading.dlco,
        target_ml_min_mmhg: level.targetMlMinMmHg,
        target_basis: level.basis.kind,
        target_inspired_co_fraction: gases?.inspired.co ?? null,
        target_alveolar_tracer_fraction: gases?.alveolar.tracer ?? null,
        target_va_l: gases?.vaBtpsL ?? null,
        target_breath_hold_s: gases?.breathHoldS ?? null,
        subject_id: null,
      });
    }
  });

  it('has a row for each figure of a check, with the deviation worked out from the row alone', async () => {
    const { rows, source } = await inside(rowsOf('journal-v3.jsonl'));
    const readings = await rows('check-readings');
    expect(new Set(readings.map(({ quantity }) => quantity))).toEqual(
      new Set(['volume', 'linearity', 'syringe-volume', 'barometer']),
    );
    for (const {
      expected,
      read,
      relative_to: relativeTo,
      off_fraction: off,
      limit_fraction: limit,
      within,
    } of readings) {
      const fraction = (Number(read) - Number(expected)) / Number(relativeTo);
      expect(Number(off)).toBeCloseTo(fraction, 12);
      // Ends are in: 1e-9 as everywhere in this project.
      expect(within).toBe(Math.abs(fraction) <= Number(limit) + 1e-9);
    }
    const points = source.logbook.checks.reduce(
      (sum, { entry: { body } }) =>
        sum +
        (body.volume?.readL.length ?? 0) +
        (body.linearity ?? []).reduce((all, { points }) => all + points.length, 0) +
        (body.syringe === undefined ? 0 : 1) +
        (body.barometer === undefined ? 0 : 1),
      0,
    );
    expect(readings).toHaveLength(points);
  });

  it('says of a closure what its signature is worth, and after a change of its words that it does not fit', async () => {
    const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    const keyId = 'key-number-1';
    const key: EntryBody<'key-registered'> = {
      keyId,
      technologistId: ids.supervisor,
      algorithm: 'ECDSA-P256-SHA256',
      publicKey: publicKey.export({ type: 'spki', format: 'der' }).toString('base64'),
      reason: '',
    };
    const statement: EntryBody<'failure-closed'> = {
      closureId: 'closure-number-1',
      analyzerId: ids.analyzer,
      failures: [{ method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId: ids.run(1) }],
      closedAt: '2026-03-05T10:00:00.000Z',
      reason: 'The run after the repair lies inside.',
      correctiveAction: 'Valve replaced',
      signature: null,
    };
    const unsigned = { by: ids.supervisor, kind: 'failure-closed', body: statement } as const;
    const value = sign('sha256', signedBytes(unsigned), { key: privateKey, dsaEncoding: 'ieee-p1363' });
    const signature = { keyId, value: value.toString('base64') };
    const failed = runRecorded(1);
    const reading = { ...failed.reading, vaL: 4 };
    const closedAs = async (changes: Partial<typeof statement>) => {
      const chain = await sealChain([
        ...laboratoryDrafts(),
        draft('key-registered', key),
        draft('run-recorded', { ...failed, reading }),
        draft('failure-closed', { ...statement, signature, ...changes }),
      ]);
      return (await inside(chain)).rows('failures');
    };
    expect(await closedAs({})).toMatchObject([
      {
        state: 'closed',
        signature: 'valid',
        corrective_action: 'Valve replaced',
        closed_by: 'IM, Ilse Marong',
      },
    ]);
    expect(await closedAs({ reason: 'Another reason.' })).toMatchObject([{ signature: 'not-valid' }]);
    expect(await closedAs({ signature: null })).toMatchObject([{ signature: 'unsigned' }]);
  });
});

const other = 'analyzer-room-3';
const march = { from: '2026-03-01', to: '2026-03-31' };

describe('a package of a period', () => {
  const drafts = (): EntryDraft[] => [
    ...laboratoryDrafts(),
    draft('analyzer-added', { ...analyzerAdded, analyzerId: other, label: 'Room 3' }),
    draft('run-recorded', runRecorded(1, { madeAt: '2026-02-28T22:59:59.999Z' })),
    draft('run-recorded', runRecorded(2, { madeAt: '2026-02-28T23:00:00.000Z' })),
    draft('run-recorded', runRecorded(3, { madeAt: '2026-03-31T21:59:59.999Z' })),
    draft('run-recorded', runRecorded(4, { madeAt: '2026-03-31T22:00:00.000Z' })),
    draft('run-recorded', runRecorded(5, { analyzerId: other, madeAt: '2026-03-10T08:00:00.000Z' })),
    draft('run-voided', { runId: ids.run(3), reason: 'Typed twice.' }),
    draft('run-voided', { runId: ids.run(1), reason: 'Typed twice.' }),
  ];
  const laterYear = { from: '2027-01-01T00:00:00.000Z' };

  it('begins and ends at midnight of the laboratory’s days, in winter and in summer time', async () => {
    // Central European Summer Time began on 29 March 2026 (IANA time zone database).
    const { rows } = await inside(await sealChain(drafts(), laterYear), march);
    expect((await rows('runs')).map(({ run_id }) => run_id)).toEqual([2, 5, 3].map(ids.run));
  });

  it('is about the chosen analyzers alone, in every file', async () => {
    const read = await inside(await sealChain(drafts(), laterYear), { ...march, analyzerIds: [other] });
    expect((await read.rows('runs')).map(({ run_id }) => run_id)).toEqual([ids.run(5)]);
    for (const { name, schema } of read.read.descriptor.resources) {
      if (!schema.fields.some((field) => field.name === 'analyzer_id')) continue;
      for (const row of await read.rows(name)) expect([null, other]).toContain(row.analyzer_id);
    }
    const bodies = (await read.rows('audit-trail')).map(({ body }) => String(body));
    expect(bodies.filter((body) => body.includes(ids.analyzer))).toEqual([]);
  });

  it('has in its audit trail what was written later about its runs, what there was before, and nothing else', async () => {
    const read = await inside(await sealChain(drafts(), laterYear), march);
    const trail = await read.rows('audit-trail');
    const about = trail.flatMap(({ kind, body }) => {
      const { runId } = JSON.parse(String(body));
      return runId === undefined ? [] : [`${kind} ${runId}`];
    });
    expect(about).toEqual([
      `run-recorded ${ids.run(2)}`,
      `run-recorded ${ids.run(3)}`,
      `run-recorded ${ids.run(5)}`,
      `run-voided ${ids.run(3)}`,
    ]);
  });

  it('counts what was left out, and keeps its hashes in the chain', async () => {
    const chain = await sealChain(drafts(), laterYear);
    const read = await inside(chain, march);
    const links = await read.rows('chain');
    expect(links.map(({ hash }) => hash)).toEqual(chain.map(({ hash }) => hash));
    const left = links.filter(({ in_audit_trail }) => in_audit_trail === false).length;
    expect(left).toBeGreaterThan(0);
    expect((await read.readme()).replaceAll('\r\n', ' ')).toContain(
      `The audit trail has ${chain.length - left} of the journal’s ${chain.length} entries.`,
    );
  });

  it('has the failure that was open in it and the action about it, though the run that opened it is of another time', async () => {
    const failed = runRecorded(1, { madeAt: '2026-02-10T08:00:00.000Z' });
    const reading = { ...failed.reading, vaL: 4 };
    const failures = [
      { method: 'syringe', route: 'patient-test', quantity: 'va', openedByRunId: ids.run(1) },
    ] as const;
    const action: EntryBody<'action-taken'> = {
      actionId: 'action-number-1',
      analyzerId: ids.analyzer,
      failures: [...failures],
      doneAt: '2026-04-02T08:00:00.000Z',
      what: 'Valve changed.',
      technologistId: null,
      part: '',
      eventId: null,
    };
    const read = await inside(
      await sealChain(
        [...laboratoryDrafts(), draft('run-recorded', { ...failed, reading }), draft('action-taken', action)],
        { from: '2026-04-02T09:00:00.000Z' },
      ),
      march,
    );
    expect(await read.rows('runs')).toEqual([]);
    expect(await read.rows('failures')).toMatchObject([{ opened_by_run_id: ids.run(1), state: 'open' }]);
    expect(await read.rows('corrective-actions')).toMatchObject([{ what: 'Valve changed.' }]);
    expect((await read.readme()).replaceAll('\r\n', ' ')).toContain(
      'These columns name rows that are not in the package, mostly of other times: failures.opened_by_run_id.',
    );
  });
});

describe('a package of hostile texts', () => {
  const texts = [
    'a "quoted" word, and a comma',
    'two\r\nlines\nand a\rthird',
    '=HYPERLINK("x")',
    '+1',
    '-1',
    '@SUM(A1)',
    '\tindented',
    ' blanks around ',
    "'already",
    '日本語 العربية 👩‍🔬',
    '\u202Eright to left',
    'x'.repeat(2000),
  ];

  it('keeps each as it was, but for the apostrophe before what a spreadsheet would run', async () => {
    const runs = texts.map((comment, index) =>
      draft('run-recorded', runRecorded(index, { comment, madeAt: `2026-03-02T07:45:00.${100 + index}Z` })),
    );
    const { rows } = await inside(await sealChain([...laboratoryDrafts(), ...runs]));
    const read = (await rows('runs')).map(({ comment }) => comment);
    expect(read).toEqual(texts.map((text) => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text)));
    const bodies = (await rows('audit-trail')).map(({ body }) => JSON.parse(String(body)).comment);
    expect(bodies.filter((comment) => comment !== undefined)).toEqual(texts);
  });

  it('has no text for one that is empty', async () => {
    const { rows } = await inside(
      await sealChain([...laboratoryDrafts(), draft('run-recorded', runRecorded(1, { comment: '' }))]),
    );
    expect((await rows('runs'))[0]?.comment).toBeNull();
  });

  it('puts the replacement character for half a character and for a NUL, and is read all the same', async () => {
    // Half a character has no canonical JSON: such a row was changed after it was written, and is damaged only in its hash.
    const [person, ...rest] = await sealChain(laboratoryDrafts());
    if (person === undefined) throw new Error('no entry');
    const changed = { ...person, body: { ...technologistAdded, name: 'half \uD83D and \0' } };
    const { rows } = await inside([changed, ...rest]);
    expect((await rows('people'))[0]?.name).toBe('half \uFFFD and \uFFFD');
    expect(JSON.parse(String((await rows('audit-trail'))[0]?.body)).name).toBe('half \uD83D and \0');
  });

  it('is read where ids and labels begin like formulas, and keys between files still hold', async () => {
    const analyzerId = '=analyzer';
    const { rows, read } = await inside(
      await sealChain([
        ...laboratoryDrafts(),
        draft('analyzer-added', { ...analyzerAdded, analyzerId, label: '@Room' }),
        draft('run-recorded', runRecorded(1, { analyzerId })),
      ]),
    );
    expect(await rows('runs')).toMatchObject([{ analyzer_id: "'=analyzer", analyzer: "'@Room" }]);
    const runs = read.descriptor.resources.find(({ name }) => name === 'runs');
    expect(runs?.schema.foreignKeys?.map(({ fields }) => fields)).toContain('analyzer_id');
  });
});

describe('a package of absurd readings', () => {
  it('writes what is too large for a number as the Table Schema standard has it', async () => {
    const check: EntryBody<'check-done'> = {
      checkId: 'check-number-1',
      check: 'volume-check',
      analyzerId: ids.analyzer,
      syringeId: null,
      technologistId: ids.supervisor,
      doneAt: '2026-03-02T07:45:00.000Z',
      outcome: 'noted',
      volume: { expectedL: 1e-300, readL: [1e300, 1e-300], limitFraction: 0.025 },
      validUntil: null,
      note: '',
      investigates: null,
    };
    const { rows } = await inside(await sealChain([...laboratoryDrafts(), draft('check-done', check)]));
    expect((await rows('check-readings')).map(({ read, off_fraction }) => [read, off_fraction])).toEqual([
      [1e300, Number.POSITIVE_INFINITY],
      [1e-300, 0],
    ]);
  });
});

describe('a package of a journal with damage', () => {
  it('lists a damaged row and one of a newer release in the chain, and says how many it could not read', async () => {
    const chain = await sealChain([...laboratoryDrafts(), draft('run-recorded', runRecorded(1))]);
    const last = chain.at(-1);
    const rows = [
      ...chain,
      { ...last, id: 'entry-of-the-future', seq: 5, kind: 'tea-brewed', version: 1 },
      'nothing that was ever an entry',
      { workstation: 7, seq: -1, hash: {} },
    ];
    const read = await inside(rows);
    const states = (await read.rows('chain')).map(({ state }) => state);
    expect(states.filter((state) => state === 'newer')).toHaveLength(1);
    expect(states.filter((state) => state === 'damaged')).toHaveLength(2);
    expect(await read.rows('runs')).toHaveLength(1);
    expect(await read.readme()).toContain('3 stored entries cannot be read by this release');
  });

  it('declares no key to an analyzer whose entry is lost, and says so', async () => {
    const chain = await sealChain([...laboratoryDrafts(), draft('run-recorded', runRecorded(1))]);
    const rows = chain.filter(({ kind }) => kind !== 'analyzer-added');
    const read = await inside(rows, { analyzerIds: [ids.analyzer] });
    expect(await read.rows('runs')).toMatchObject([{ analyzer_id: ids.analyzer, analyzer: null }]);
    expect(await read.readme()).toContain('runs.analyzer_id');
    const runs = read.read.descriptor.resources.find(({ name }) => name === 'runs');
    const keys = runs?.schema.foreignKeys?.map(({ fields }) => fields);
    expect([keys?.includes('analyzer_id'), keys?.includes('syringe_id')]).toEqual([false, true]);
  });

  it('is empty and readable where there is nothing at all', async () => {
    const read = await inside([], { analyzerIds: [] });
    expect(read.written.files.filter(({ rows }) => rows > 0).map(({ path }) => path)).toEqual(['limits.csv']);
  });
});
