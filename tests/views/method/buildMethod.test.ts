/**
 * The method page says what the core and the logbook say. Numbers expected here come from printed tables and worked arithmetic:
 * see the source beside each; what a rule fires at is asked of the core run by run.
 */
import { describe, expect, it } from 'vitest';
import {
  type CheckLimits,
  defaultControlPolicy,
  evaluateSeries,
  publishedCheckLimits,
  type RuleId,
  ruleIds,
  ruleSpan,
  usualPlans,
} from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { limitedCheckIds } from '../../../src/views/checkLimitWords.ts';
import { buildMethod } from '../../../src/views/method/buildMethod.ts';
import type { MethodSection } from '../../../src/views/method/methodModel.ts';
import { checkWords } from '../../../src/views/scheduleWords.ts';
import { type MethodPlace, methodPlaces, termIds, termOf } from '../../../src/views/terms.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { closingRules, draft, opened, run, week } from '../laboratory.ts';
import { limitsAdopted, policySet, policyWith } from '../settingDrafts.ts';

const now = '2026-06-01T08:00:00.000Z';

async function pageOf(drafts: readonly EntryDraft[] = [], at = now): Promise<readonly MethodSection[]> {
  return buildMethod((await opened(drafts)).logbook, at);
}

function partOf(page: readonly MethodSection[], place: MethodPlace): MethodSection {
  const found = page.find((section) => section.place === place);
  if (found === undefined) throw new Error(`the page has no part ${place}`);
  return found;
}

/** All that stands in a part, a line for each text and row. */
function linesOf({ title, terms, blocks, sources }: MethodSection): string[] {
  return [
    title,
    ...terms.map((id) => `${termOf(id).name}: ${termOf(id).says}`),
    ...blocks.flatMap((block) => {
      if (block.kind === 'text' || block.kind === 'equation') return [block.text];
      if (block.kind === 'facts')
        return [block.lead, ...block.rows.map(({ name, value }) => `${name}: ${value}`)];
      return [block.caption, ...block.rows.map((cells) => cells.join(' | '))];
    }),
    ...sources,
  ];
}

const textOf = (page: readonly MethodSection[], place: MethodPlace) =>
  linesOf(partOf(page, place)).join('\n');

/** The cells of the row that begins with a word, in whichever table of the part has it. */
function rowOf(page: readonly MethodSection[], place: MethodPlace, first: string): readonly string[] {
  const rows = partOf(page, place).blocks.flatMap((block) => (block.kind === 'table' ? block.rows : []));
  const found = rows.find(([cell]) => cell === first);
  if (found === undefined)
    throw new Error(`${place} has no row ${first}: ${rows.map(([cell]) => cell).join(', ')}`);
  return found;
}

const checkLimitsAdopted = (from: string, limits: Partial<CheckLimits>) =>
  draft('check-limits-adopted', {
    adoptionId: `adopted-${from}`,
    from,
    limits: { ...publishedCheckLimits, edition: 'House checks 2026', ...limits },
    reason: 'A tighter limit was decided.',
  });

describe('buildMethod', () => {
  it('has every part once, in the order of its addresses, each with its sources', async () => {
    const page = await pageOf();
    expect(page.map(({ place }) => place)).toEqual(methodPlaces);
    for (const { place, sources } of page) {
      if (place !== 'cautions') expect(sources, place).not.toEqual([]);
    }
  });

  it('explains every term at the part that the term leads to, each with a source', async () => {
    const page = await pageOf();
    const explained = page.flatMap(({ place, terms }) => terms.map((id) => `${place} ${id}`));
    expect(explained.sort()).toEqual(termIds.map((id) => `${termOf(id).place} ${id}`).sort());
    for (const id of termIds) {
      expect(termOf(id).source, id).not.toBe('');
      // One or two sentences.
      expect(termOf(id).says.match(/\.( |$)/g)?.length, id).toBeLessThanOrEqual(2);
    }
  });

  it('names every rule, every limit and every check', async () => {
    const page = await pageOf();
    for (const rule of ruleIds) expect(rowOf(page, 'rules', rule)[1]).toMatch(/^(\d+|all)$/);
    const limits = textOf(page, 'check-limits');
    for (const check of limitedCheckIds) expect(limits).toContain(publishedCheckLimits[check].source);
    for (const { kind, source } of usualPlans) {
      expect(rowOf(page, 'checks', checkWords[kind])).toContain(source);
    }
  });
});

describe('the gas on the method page', () => {
  it('has the factors of the printed tables for 22 °C and 760 mmHg', async () => {
    const row = rowOf(await pageOf(), 'conversion', '22.0 °C and 760 mmHg');
    // Dry: 713/310.15 ÷ 760/295.15 = 0.8928, by hand. Saturated: 1/1.091 of the printed ATPS table (recalled), which is rounded.
    expect(row[1]).toBe('0.8928');
    expect(Number(row[2])).toBeCloseTo(1 / 1.091, 3);
    // 0.91/0.8928 · 3 L = 3.058 L, by hand.
    expect(row.slice(3)).toEqual(['3.058', '+58']);
  });

  it('reckons for the room of the runs where there are any', async () => {
    const at2 = { temperatureC: 18, barometricMmHg: 600 };
    const page = await pageOf([run(0, 3.0, { ambient: at2 }), run(1, 3.01, { ambient: at2 })]);
    expect(textOf(page, 'conversion')).toContain('18.0 °C and 600 mmHg: the median of the newest 2 runs');
    expect(textOf(page, 'uncertainty')).toContain('18.0 °C and 600 mmHg');
    // 553/310.15 ÷ 600/291.15 = 0.8652, by hand; the fixed 0.91 then reads 155 mL high.
    expect(rowOf(page, 'conversion', '18.0 °C and 600 mmHg').slice(1)).toEqual(
      expect.arrayContaining(['0.8652', '+155']),
    );
  });

  it('has vapour pressures within 0.12 % of the classic handbook table', async () => {
    const row = rowOf(await pageOf(), 'conversion', 'mmHg')
      .slice(1)
      .map(Number);
    // CRC-type table of water vapour: 18, 20, 22, 24, 28, 37 °C.
    const printed = [15.477, 17.535, 19.827, 22.377, 28.349, 47.067];
    expect(row).toHaveLength(printed.length);
    for (const [index, mmHg] of printed.entries()) {
      expect(Math.abs((row[index] ?? 0) / mmHg - 1)).toBeLessThan(0.0012);
    }
  });

  it('says how far CO and tracer may disagree at the limit of 0.5', async () => {
    // 0.5 · 10 · 760 · 310.15 / (3300 · 60 · 273.15) = 0.02179; 1 − e^−0.02179 = 2.16 %, e^0.02179 − 1 = 2.20 %, by hand.
    expect(rowOf(await pageOf(), 'dlco', 'mL/min/mmHg')).toEqual(['mL/min/mmHg', '0.5', '2.16', '2.20']);
  });

  it('finds 3 L again whether or not the analyzer subtracts the dead space', async () => {
    const lines = linesOf(partOf(await pageOf(), 'simulated-va'));
    expect(lines).toContain('Simulated VA: 3.000 L');
    expect(lines.find((line) => line.startsWith('Had it subtracted 110 mL'))).toContain(
      'simulated VA 3.000 L',
    );
  });
});

describe('the limits on the method page', () => {
  it('are those in force, with every edition that was adopted and its date', async () => {
    const page = await pageOf([
      limitsAdopted('2026-02-02T08:00:00.000Z', {
        edition: 'House 2026',
        vaToleranceL: 0.2,
        volumeCheckFraction: 0.02,
      }),
      limitsAdopted('2026-09-01T08:00:00.000Z', { edition: 'House 2027', vaToleranceL: 0.15 }),
    ]);
    const [lead, ...rows] = linesOf(partOf(page, 'published-limits')).slice(2);
    expect(lead).toBe('In force today');
    expect(rows.slice(0, 3)).toEqual([
      'Edition: House 2026',
      'Source: Procedure of the house',
      'VA: ±200 mL, ends included',
    ]);
    const text = textOf(page, 'published-limits');
    expect(text).toContain('Adopted from 2 Feb 2026');
    expect(text).toContain('Adopted from 1 Sep 2026');
    expect(text).toMatch(/1 Sep 2026 on by \w+, not in force yet/);
    expect(text).toContain('±150 mL');
    expect(textOf(page, 'simulated-va')).toContain('Beyond ±2 %');
    expect(textOf(await pageOf(), 'published-limits')).toContain('Nobody has adopted another.');
  });

  it('of the other checks change wherever they are named', async () => {
    const page = await pageOf([
      checkLimitsAdopted('2026-02-02T08:00:00.000Z', {
        simulator: { dlcoMlMinMmHg: 1.4, source: 'Procedure 7' },
        linearity: { fraction: 0.004, source: 'Procedure 8' },
        biological: { fraction: 0.1, dlcoMlMinMmHg: 2.4, cv: 0.05, source: 'Procedure 9' },
      }),
    ]);
    expect(textOf(page, 'check-limits')).toContain('House checks 2026');
    expect(textOf(page, 'simulator')).toContain('beyond 1.4 mL/min/mmHg');
    expect(textOf(page, 'checks')).toContain('within ±0.4 %');
    expect(textOf(page, 'biological')).toContain('within 10 % and within 2.4 mL/min/mmHg');
    expect(textOf(page, 'biological')).toContain('Procedure 9');
    expect(textOf(await pageOf(), 'simulator')).toContain('beyond 2 mL/min/mmHg');
  });
});

describe('the rules on the method page', () => {
  it('are those of the policy in force, not of one to come', async () => {
    const policy = policyWith({
      severity: { '1-2s': 'off', '7T': 'action' },
      baselineSize: 30,
      smallSample: true,
      ewma: { lambda: 0.1, limit: 2.7 },
    });
    const drafts = [policySet('2026-05-01T08:00:00.000Z', policy)];
    const before = await pageOf(drafts, '2026-04-01T08:00:00.000Z');
    const after = await pageOf(drafts);
    expect(rowOf(before, 'rules', '1-2s')[4]).toBe('warning');
    expect(rowOf(after, 'rules', '1-2s')[4]).toBe('off');
    expect(rowOf(after, 'rules', '7T')[4]).toBe('action: fails the run');
    expect(textOf(before, 'own-limits')).toContain('Frozen at: 20 accepted runs');
    expect(textOf(after, 'own-limits')).toContain('Frozen at: 30 accepted runs');
    // 2.7 · √(0.1/1.9) = 0.6194, by hand.
    expect(rowOf(after, 'rules', 'EWMA')[2]).toBe('|E| > 0.62');
    expect(rowOf(after, 'run-lengths', 'EWMA, λ 0.1, L 2.7')).toHaveLength(5);
    expect(textOf(after, 'simulator')).toContain('It weighs what R-4s weighs (action)');
  });

  it('name the analyzer that differs from the others', async () => {
    const other = draft('analyzer-added', {
      ...analyzerAdded,
      analyzerId: 'analyzer-second',
      label: 'Second room',
    });
    const page = await pageOf([
      other,
      policySet(
        '2026-05-01T08:00:00.000Z',
        policyWith({ severity: { '10x': 'warning' } }),
        'analyzer-second',
      ),
    ]);
    expect(rowOf(page, 'rules', '10x')[4]).toBe('action: fails the run; Second room: warning');
    expect(rowOf(page, 'rules', '1-3s')[4]).toBe('action: fails the run');
  });

  it('have the prediction factors that scipy and R give', async () => {
    // t(n − 1; 0.99865) · √(1 + 1/n) at n = 10, 20, 100.
    const row = rowOf(await pageOf(), 'own-limits', 'in place of 3');
    expect(row).toEqual(expect.arrayContaining(['4.294', '3.532', '3.093']));
  });

  it('have the run lengths of the published tables', async () => {
    const page = await pageOf();
    // 1-3s: 1/0.0026998 = 370.4, any table; 43.9, 6.3, 2.0: Champ & Woodall 1987, table 1 (checked by simulation and R's spc).
    expect(rowOf(page, 'run-lengths', '1-3s')).toEqual(['1-3s', '370', '43.9', '6.3', '2.0']);
    expect(rowOf(page, 'run-lengths', '2-2s').slice(1)).toEqual(['988', '46.0', '6.0', '2.6']);
    expect(rowOf(page, 'run-lengths', '1-3s, 2-2s, R-4s, 4-1s, 10x together').slice(1, 3)).toEqual([
      '158',
      '13.0',
    ]);
  });

  /** z that fire a rule at their last run, and the same weakened to its very threshold, where it must not. */
  const edges: Record<Exclude<RuleId, 'EWMA' | 'CUSUM'>, { fires: number[]; silent: number[] }> = {
    '1-2s': { fires: [2.01], silent: [1.99] },
    '1-3s': { fires: [3.01], silent: [2.99] },
    '2-2s': { fires: [2.01, 2.01], silent: [1.99, 2.01] },
    'R-4s': { fires: [-2.01, 2.01], silent: [-1.99, 2.01] },
    '4-1s': { fires: [1.01, 1.01, 1.01, 1.01], silent: [0.99, 1.01, 1.01, 1.01] },
    '10x': { fires: Array<number>(10).fill(0.01), silent: [-0.01, ...Array<number>(9).fill(0.01)] },
    // The run before lies at −0.97: six steps from −1.1 on, or five.
    '7T': { fires: [-1.1, -0.5, -0.4, -0.3, 0, 0.2, 0.4], silent: [-1.1, -0.5, -0.4, -0.3, 0, 0.2] },
  };

  it('state the very thresholds and numbers of runs at which the core fires', async () => {
    const page = await pageOf();
    // Mean 0 and SD 1 of twenty runs, before those that are looked at.
    const half = Math.sqrt(19 / 20);
    const before = Array.from({ length: 20 }, (_, index) => (index % 2 === 0 ? half : -half));
    const firesAtLast = (rule: RuleId, z: readonly number[]) => {
      const points = [...before, ...z].map((value, at) => ({ id: String(at), at, epoch: 0, value }));
      const last = evaluateSeries(points, defaultControlPolicy).at(-1);
      return last?.signals.some((signal) => signal.rule === rule) ?? false;
    };
    for (const rule of ruleIds) {
      if (rule === 'EWMA' || rule === 'CUSUM') continue;
      const { fires, silent } = edges[rule];
      expect(firesAtLast(rule, fires), `${rule} fires`).toBe(true);
      expect(firesAtLast(rule, silent), `${rule} is silent`).toBe(false);
      const [, runs, limit] = rowOf(page, 'rules', rule);
      expect(runs).toBe(String(fires.length));
      expect(fires.length).toBe(ruleSpan[rule]);
      const threshold = Math.floor(Math.abs(fires.at(-1) ?? 0));
      if (rule !== '7T') expect(limit, rule).toContain(`> ${threshold}`);
    }
  });
});

describe('the rest of the method page', () => {
  it('says what a closing needs as it is set', async () => {
    const page = await pageOf([closingRules({ proofRuns: 3, needsAction: true, needsLookBack: false })]);
    expect(textOf(page, 'failures')).toContain('Passing runs: 3 runs');
    expect(textOf(page, 'failures')).toContain('Patient look-back: not needed');
  });

  it('says how often a check is made by the laboratory’s own schedule, and that one is not', async () => {
    const scheduled = (check: 'barometer' | 'linearity', isMade: boolean) =>
      draft('schedule-set', {
        scheduleId: `schedule-${check}`,
        check,
        isMade,
        every: isMade ? { unit: 'months', count: 6 } : null,
        announceDays: 14,
        reason: 'Decided in March.',
      });
    const page = await pageOf([scheduled('barometer', true), scheduled('linearity', false)]);
    expect(rowOf(page, 'checks', 'Barometer check')[1]).toBe('every 6 months, announced 14 days before');
    expect(rowOf(page, 'checks', 'Barometer check')[3]).toContain('Decided in March.');
    expect(rowOf(page, 'checks', 'Gas analyzer linearity')[1]).toBe('not made here');
  });

  it('has the uncertainty of the worked example, by the rule of the GUM', async () => {
    // By hand, in mL, each over √3: syringe 15 → 8.66; 1 °C of 3080/295.15 → 6.02; 19 mmHg of 3080 · 47/(760 · 713) → 2.93;
    // dead space 10 → 5.77; display 5 · 0.8928 → 2.58. √(75.0 + 36.3 + 8.6 + 33.3 + 6.6) = 12.6, and twice that.
    const page = await pageOf();
    const added = [
      ['Stroke of the syringe', 8.66],
      ['Temperature', 6.02],
      ['Pressure', 2.93],
      ['Dead space', 5.77],
      ['Display of VA', 2.58],
    ] as const;
    // A tenth is written; a first-order effect over a half-width is off by less.
    for (const [source, ml] of added) {
      expect(Math.abs(Number(rowOf(page, 'uncertainty', source)[2]) - ml), source).toBeLessThan(0.06);
    }
    const lines = linesOf(partOf(page, 'uncertainty'));
    expect(lines).toContain('Standard uncertainty: 12.6 mL');
    expect(lines).toContain('Expanded, k = 2: 25.3 mL');
  });

  it('is the same at every moment between two settings', async () => {
    const drafts = [limitsAdopted(week(3), { edition: 'House 2026' })];
    expect(await pageOf(drafts, week(4))).toEqual(await pageOf(drafts, week(9)));
    expect(await pageOf(drafts, week(2))).not.toEqual(await pageOf(drafts, week(4)));
  });
});
