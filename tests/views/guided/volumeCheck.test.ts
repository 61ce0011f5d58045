import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import { buildReadBack } from '../../../src/views/guided/buildReadBack.ts';
import { buildVolumeCheck } from '../../../src/views/guided/volumeCheck.ts';
import type { BenchDraft } from '../../../src/views/runForm/benchDraft.ts';
import { draft, opened } from '../laboratory.ts';
import { filled, laboratoryWith, noon } from '../runForm/drafts.ts';

type Laboratory = Parameters<typeof laboratoryWith>[0];

/** Room and equipment are chosen; no reading is typed. */
const unread: BenchDraft = Object.freeze({ ...filled, va: '', dlco: '' });

async function checkFor(changes: Partial<BenchDraft>, laboratory: Laboratory = {}) {
  const logbook = await laboratoryWith(laboratory);
  return buildVolumeCheck({ ...unread, ...changes }, { logbook, now: noon });
}

async function readBackFor(changes: Partial<BenchDraft>) {
  const logbook = await laboratoryWith({});
  return buildReadBack({ ...unread, ...changes }, { logbook, now: noon });
}

describe('buildVolumeCheck', () => {
  it('expects the stroke in BTPS by the analyzer’s own assumption', async () => {
    // Dry gas at 22 °C: 1.1201 at 760 mmHg and 1.1356 at 630 mmHg, derived from the gas law. 3 · 1.1201 = 3.360.
    expect(await checkFor({})).toMatchObject({
      expected: '3.36',
      lowest: '3.26',
      highest: '3.46',
      limit: '±3 %',
    });
    expect(await checkFor({ pressure: '630' })).toMatchObject({ expected: '3.41' });
    // Saturated gas at 22 °C: 1.091 in the printed tables (recalled); 3 · 1.091 = 3.273.
    const saturated = await checkFor({}, { analyzer: { conversion: { kind: 'computed', assumed: 'ATPS' } } });
    expect(saturated?.expected).toBe('3.27');
    // 3 / 0.91 = 3.2967
    const fixed = await checkFor({}, { analyzer: { conversion: { kind: 'fixed', factor: 0.91 } } });
    expect(fixed?.expected).toBe('3.30');
  });

  it('expects the whole stroke also where the run itself starts at 1 L', async () => {
    expect((await checkFor({}, { analyzer: { volumeInsideL: 1 } }))?.expected).toBe('3.36');
  });

  it('judges a typed reading at ±3 %, and says how far off it is', async () => {
    // The ends: 3.3603 · 0.97 = 3.2595 and · 1.03 = 3.4611.
    expect((await checkFor({ volumeCheck: '3.26' }))?.outcome?.isInside).toBe(true);
    expect((await checkFor({ volumeCheck: '3.25' }))?.outcome?.isInside).toBe(false);
    expect((await checkFor({ volumeCheck: '3.46' }))?.outcome?.isInside).toBe(true);
    expect((await checkFor({ volumeCheck: '3.47' }))?.outcome?.isInside).toBe(false);
    // 3.05 / 3.3603 − 1 = −9.23 %
    expect((await checkFor({ volumeCheck: '3.05' }))?.outcome?.found).toBe('9.2 % low, outside ±3 %.');
    expect((await checkFor({ volumeCheck: '3.36' }))?.outcome?.found).toBe('As expected, inside ±3 %.');
    expect((await checkFor({ volumeCheck: '3,42' }))?.outcome?.found).toBe('1.8 % high, inside ±3 %.');
  });

  it('names the limit that the laboratory has adopted to its last digit', async () => {
    const { logbook } = await opened([
      draft('limits-adopted', {
        adoptionId: 'limits-of-the-house',
        limits: {
          ...publishedLimits2017,
          edition: 'Of the house',
          source: 'House rules',
          volumeCheckFraction: 0.025,
        },
        from: '2026-01-02T00:00:00.000Z',
        reason: 'Agreed.',
      }),
    ]);
    // 3.3603 · 1.025 = 3.4443
    const check = buildVolumeCheck({ ...unread, volumeCheck: '3.45' }, { logbook, now: noon });
    expect(check).toMatchObject({ highest: '3.44', limit: '±2.5 %' });
    expect(check?.outcome).toEqual({ isInside: false, found: '2.7 % high, outside ±2.5 %.' });
  });

  it('is silent about a reading that is missing or cannot be', async () => {
    expect((await checkFor({}))?.outcome).toBeNull();
    expect(await checkFor({ volumeCheck: '33' })).toMatchObject({ expected: '3.36', outcome: null });
  });

  it('is null while room, analyzer or syringe are not known', async () => {
    expect(await checkFor({ temperature: '' })).toBeNull();
    expect(await checkFor({ pressure: 'abc' })).toBeNull();
    expect(await checkFor({ analyzerId: '' })).toBeNull();
    expect(await checkFor({ syringeId: '' })).toBeNull();
  });

  it('does not wait for the humidity that only a VA in ATP needs', async () => {
    expect(await checkFor({ vaReportedAs: 'ATP' })).toMatchObject({ expected: '3.36' });
  });
});

describe('buildReadBack', () => {
  it('says nothing before anything is read', async () => {
    expect(await readBackFor({})).toEqual([]);
  });

  it('gives the simulated VA and DLCO each as soon as it is typed', async () => {
    // 3.45 L BTPS at 22 °C and 760 mmHg: 3.45 · 0.8928 − 0.110 = 2.970 L.
    const va = 'Simulated VA comes to 2.970 L: 30 mL low, inside the published 300 mL.';
    expect(await readBackFor({ va: '3.45' })).toEqual([va]);
    expect(await readBackFor({ dlco: '0.12' })).toEqual([
      'DLCO 0.12 mL/min/mmHg is below the published 0.5.',
    ]);
    expect(await readBackFor({ va: '3.45', dlco: '0.5' })).toEqual([
      va,
      'DLCO 0.50 mL/min/mmHg is not below the published 0.5.',
    ]);
    // 3.95 · 0.8928 − 0.110 = 3.4166 L
    expect(await readBackFor({ va: '3.95' })).toEqual([
      'Simulated VA comes to 3.417 L: 417 mL high, outside the published 300 mL.',
    ]);
  });

  it('leaves out a reading that cannot be: the message beside its field says why', async () => {
    expect(await readBackFor({ va: '34.5', dlco: '0.1' })).toHaveLength(1);
  });
});
