import { createHash } from 'node:crypto';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demonstrationEntries } from '../../../src/demo/laboratory.ts';
import type { PackageSource } from '../../../src/exchange/package/source.ts';
import { writePackage } from '../../../src/exchange/package/writePackage.ts';
import type { Entry } from '../../../src/journal/entries.ts';
import { madeAt, type Opened, opened, packageOf, wholeScope } from './packages.ts';

let entries: readonly Entry[];
let source: PackageSource;
let bytes: Uint8Array;
let written: Awaited<ReturnType<typeof packageOf>>['written'];
let inside: Opened;
beforeAll(async () => {
  entries = await demonstrationEntries({ seed: 7, endAt: Date.UTC(2026, 5, 1), zone: 'Europe/Oslo' });
  ({ source, written } = await packageOf(entries));
  bytes = written.bytes;
  inside = await opened(bytes);
}, 60_000);
afterAll(() => inside.dispose());

const sha256 = (content: string | Buffer) => createHash('sha256').update(content).digest('hex');

describe('the description of a package', () => {
  it('is accepted by the reference implementation of the standard, as is every file’s', () => {
    expect(inside.read.errors).toEqual([]);
    expect(inside.read.valid).toBe(true);
    expect(inside.read.resources.map(({ name, errors }) => [name, errors])).toEqual(
      written.files.map(({ path }) => [path.replace('.csv', ''), []]),
    );
  });

  it('says of every column what it means, and of every number in what unit it is', () => {
    /** Ratios and weights have none. */
    const pure = ['conversion_factor', 'conversion_fixed_factor', 'ewma_lambda'];
    for (const { name, schema } of inside.read.descriptor.resources) {
      for (const field of schema.fields) {
        expect(field.description, `${name}.${field.name}`).toMatch(/\S.{2,}/);
        if (field.type === 'number' && !pure.includes(field.name))
          expect(field.unit, `${name}.${field.name}`).toMatch(/\S/);
      }
      const names = schema.fields.map((field) => field.name);
      expect(new Set(names).size).toBe(names.length);
      for (const key of schema.primaryKey) expect(names).toContain(key);
    }
  });

  it('has the length and the SHA-256 of every file', async () => {
    for (const { name, bytes: length, hash } of inside.read.descriptor.resources) {
      const content = await inside.resource(name).rawRead();
      expect(content.length).toBe(length);
      expect(`sha256:${sha256(content)}`).toBe(hash);
    }
  });

  it('is read with its types, its constraints and the keys between files, row by row', async () => {
    for (const { name, rows } of inside.read.descriptor.resources) {
      const read = await inside.resource(name).read({ keyed: true, relations: true });
      expect(read.length, name).toBe(rows);
    }
    const keys = inside.read.descriptor.resources.flatMap(({ name, schema }) =>
      (schema.foreignKeys ?? []).map(({ fields, reference }) => `${name}.${fields} → ${reference.resource}`),
    );
    // Whole time: nothing is left out, and no key may be missing for lack of rows.
    expect(keys).toContain('runs.analyzer_id → analyzers');
    expect(keys).toContain('failures.opened_by_run_id → runs');
    expect(keys).toContain('corrective-actions.failure_id → failures');
    expect(keys).toContain('audit-trail.by → people');
    expect(await inside.readme()).not.toContain('name rows that are not in the package');
  }, 60_000);
});

describe('the files of a package, read by their description', () => {
  it('have one row for each thing of the logbook', async () => {
    const { logbook } = source;
    const count = async (name: string) => (await inside.rows(name)).length;
    expect(await count('runs')).toBe(logbook.runs.length);
    expect(await count('checks')).toBe(logbook.checks.length);
    expect(await count('failures')).toBe(source.failures.length + source.controlFailures.length);
    expect(await count('analyzers')).toBe(logbook.analyzers.size);
    expect(await count('people')).toBe(logbook.technologists.size);
    expect(await count('audit-trail')).toBe(entries.length);
    const named = (about: readonly { body: { failures: readonly unknown[] } }[]) =>
      about.reduce((sum, { body }) => sum + body.failures.length, 0);
    expect(await count('corrective-actions')).toBe(named(logbook.actions));
    expect(await count('look-backs')).toBe(named(logbook.lookBacks));
    expect(await count('controls')).toBe(
      logbook.controls.reduce(
        (sum, { control }) => sum + (control.kind === 'simulator' ? control.levels.length : 1),
        0,
      ),
    );
  });

  it('give the numbers of every run as the logbook has them, to the last bit', async () => {
    const rows = await inside.rows('runs');
    expect(rows.length).toBeGreaterThan(400);
    for (const [index, run] of source.logbook.runs.entries()) {
      const row = rows[index] ?? {};
      const { body } = run;
      const numbers = source.assessments.get(run.id)?.numbers;
      const pairs: readonly (readonly [unknown, number | null | undefined])[] = [
        [row.temperature_c, body.ambient.temperatureC],
        [row.barometric_mmhg, body.ambient.barometricMmHg],
        [row.pressure_as_typed, body.pressureAsTyped.value],
        [row.relative_humidity_fraction, body.ambient.relativeHumidity],
        [row.reported_va_l, body.reading.vaL],
        [row.reported_dlco, body.reading.dlco],
        [row.syringe_dead_space_l, body.syringe.deadSpaceL],
        [row.conversion_factor, numbers?.factor],
        [row.ambient_va_l, numbers?.ambientVaL],
        [row.simulated_va_l, numbers?.simulatedVaL],
        [row.va_off_target_ml, numbers?.vaOffTargetMl],
        [row.dlco_ml_min_mmhg, numbers?.dlcoMlMinMmHg],
        [row.co_tracer_disagreement_fraction, numbers?.coTracerDisagreement],
        [row.va_n, body.judged?.va.n],
        [row.va_mean_l, body.judged?.va.mean],
        [row.va_sd_l, body.judged?.va.sd],
        [row.va_z, body.judged?.va.z],
        [row.dlco_z, body.judged?.dlco.z],
      ];
      for (const [read, kept] of pairs) expect((read ?? null) === (kept ?? null)).toBe(true);
      expect(row.verdict).toBe(body.judged?.word ?? null);
      expect(new Date(String(row.made_at)).getTime()).toBe(run.simulation.at);
    }
  });

  it('give the figures of every check', async () => {
    const readings = await inside.rows('check-readings');
    const strokes = source.logbook.checks.flatMap(({ id, entry: { body } }) =>
      (body.volume?.readL ?? []).map((litres) => ({ id, litres, expected: body.volume?.expectedL ?? 0 })),
    );
    const found = readings.filter(({ quantity }) => quantity === 'volume');
    expect(found.length).toBeGreaterThan(20);
    const byCheck = (one: { id: string }, other: { id: string }) => (one.id < other.id ? -1 : 1);
    expect(
      found
        .map((row) => ({ id: String(row.check_id), litres: row.read, expected: row.expected }))
        .toSorted(byCheck),
    ).toEqual(strokes.toSorted(byCheck));
    for (const { read, expected, off_fraction: off } of found)
      expect(Number(off)).toBeCloseTo((Number(read) - Number(expected)) / Number(expected), 12);
  });

  it('have the baseline that the frozen limits of the newest runs rest on', async () => {
    const baselines = await inside.rows('baselines');
    let compared = 0;
    for (const baseline of baselines) {
      if (baseline.of !== 'run' || baseline.state !== 'frozen' || baseline.until !== null) continue;
      const part = baseline.part === 'va' ? 'va' : 'dlco';
      const last = source.logbook.runs.findLast(
        ({ body, voided }) =>
          voided === null &&
          body.analyzerId === baseline.analyzer_id &&
          body.route === baseline.route &&
          body.method === baseline.method,
      );
      const judged = source.assessments.get(last?.id ?? '')?.[part];
      if (judged === undefined || judged.mean === null || judged.n < 20) continue;
      compared += 1;
      expect(baseline.n).toBe(judged.n);
      // The core adds up in another order.
      expect(Number(baseline.mean)).toBeCloseTo(judged.mean, 10);
      expect(Number(baseline.sd)).toBeCloseTo(judged.sd ?? 0, 10);
    }
    expect(compared).toBeGreaterThan(4);
  });

  it('let somebody else work out a baseline: mean and SD of the first 20 accepted runs, by simple-statistics', async () => {
    const [runs, baselines] = [await inside.rows('runs'), await inside.rows('baselines')];
    const first = baselines.find(
      ({ part, epoch, state }) => part === 'va' && epoch === 0 && state === 'frozen',
    );
    const values = runs
      .filter(
        (run) => run.analyzer_id === first?.analyzer_id && run.route === first?.route && run.voided === false,
      )
      .filter((run) => run.failure_open === false && !/1-3s|2-2s|R-4s|4-1s|10x/.test(String(run.va_signals)))
      .slice(0, 20)
      .map((run) => Number(run.simulated_va_l));
    expect(values).toHaveLength(20);
    expect(Number(first?.mean)).toBeCloseTo(mean(values), 10);
    expect(Number(first?.sd)).toBeCloseTo(sampleStandardDeviation(values), 10);
  });
});

/** By the recipe of README.txt, from the cells alone. */
function hashedText(row: Record<string, unknown>): string {
  const text = (name: string) => JSON.stringify(row[name] ?? '');
  return `{"at":${text('at')},"body":${row.body},"by":${text('by')},"id":${text('entry_id')},"kind":${text('kind')},"prev":${text('prev')},"seq":${row.seq},"version":${row.version},"workstation":${text('workstation')},"zone":${text('zone')}}`;
}

describe('the audit trail', () => {
  it('can be checked entry by entry as README.txt says, with nothing but SHA-256', async () => {
    const rows = await inside.rows('audit-trail');
    for (const row of rows) {
      const at = new Date(String(row.at)).toISOString();
      expect(sha256(hashedText({ ...row, at }))).toBe(row.hash);
    }
  });

  it('hangs together from the first entry to the head that README.txt names', async () => {
    const links = await inside.rows('chain');
    const [head] = await inside.rows('chain-heads');
    let prev: unknown = null;
    for (const link of links) {
      expect(link.prev).toBe(prev);
      expect(link.in_audit_trail).toBe(true);
      prev = link.hash;
    }
    expect(prev).toBe(head?.head_hash);
    expect(entries.at(-1)?.hash).toBe(prev);
    expect(await inside.readme()).toContain(`number ${entries.length}:\r\n    ${prev}\r\n`);
  });
});

describe('a package made again', () => {
  it('is the same to the byte, whatever zone the machine is in', async () => {
    const zoneBefore = process.env.TZ;
    try {
      process.env.TZ = 'Asia/Tokyo';
      expect(new Date(0).getTimezoneOffset()).toBe(-9 * 60);
      const again = await writePackage(source, wholeScope(source), madeAt);
      expect(Buffer.from(again.bytes).equals(Buffer.from(bytes))).toBe(true);
    } finally {
      if (zoneBefore === undefined) delete process.env.TZ;
      else process.env.TZ = zoneBefore;
    }
  });

  it('differs in the stated moment alone', async () => {
    const later = await opened(
      (await writePackage(source, wholeScope(source), '2026-06-02T10:00:00.000Z')).bytes,
    );
    const { created, ...rest } = later.read.descriptor;
    const { created: createdBefore, ...restBefore } = inside.read.descriptor;
    expect([createdBefore, created]).toEqual([madeAt, '2026-06-02T10:00:00.000Z']);
    expect(rest).toEqual(restBefore);
    await later.dispose();
  });
});
