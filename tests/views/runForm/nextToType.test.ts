// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { BenchDraft, BenchField } from '../../../src/views/runForm/benchDraft.ts';
import { nextToType } from '../../../src/views/runForm/nextToType.ts';
import { opened, run, theRun } from '../laboratory.ts';
import { filled, read } from './drafts.ts';

const reading = { vaL: 3.4, vaReportedAs: 'BTPS', dlco: 0.1, dlcoUnit: 'mL/min/mmHg' } as const;
const { logbook } = await opened([
  run(0, 3.4, { reading: { ...reading, inspiredVolumeL: 3.3, breathHoldS: 10 } }),
]);

const next = (from: BenchField | null, changes: Partial<BenchDraft>, withLast = false) => {
  const draft = { ...filled, ...changes };
  return nextToType(from, draft, read(draft, logbook), withLast ? theRun(logbook, 0) : undefined);
};

describe('nextToType', () => {
  it('is the next field in the order of the form that a run still needs', () => {
    expect(next(null, { technologistId: '', va: '' })).toBe('technologistId');
    expect(next('technologistId', { va: '' })).toBe('va');
    expect(next('pressure', { va: '', dlco: '' })).toBe('va');
    expect(next('va', { dlco: '' })).toBe('dlco');
  });

  it('is none once a run can be recorded, wherever the hand is', () => {
    for (const from of [null, 'temperature', 'dlco', 'volumeCheck'] as const)
      expect(next(from, {})).toBeNull();
  });

  it('goes round the end for what was passed by or cannot be', () => {
    expect(next('dlco', { temperature: '' })).toBe('temperature');
    expect(next('dlco', { pressure: '7600' })).toBe('pressure');
    expect(next('va', { va: '' })).toBe('va');
  });

  it('stops once, on the way, at what the last run had: not at what it had not, nor at what is typed', () => {
    expect(next('va', {}, true)).toBe('inspiredVolume');
    expect(next('inspiredVolume', {}, true)).toBe('breathHold');
    expect(next('breathHold', {}, true)).toBeNull();
    expect(next('va', { inspiredVolume: '3.31', breathHold: '10' }, true)).toBeNull();
    expect(next('temperature', { pressure: '' }, true)).toBe('pressure');
  });

  it('asks for the humidity where VA is reported as ATP', () => {
    expect(next('pressure', { vaReportedAs: 'ATP' })).toBe('humidity');
  });
});
