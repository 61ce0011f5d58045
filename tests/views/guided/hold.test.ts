import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import {
  heldMs,
  heldSentence,
  holdFace,
  notHeld,
  pausedHold,
  resumedHold,
  startedHold,
} from '../../../src/views/guided/hold.ts';

/** 10 ± 2 s: 2017 ERS/ATS DLCO standard, recalled. */
const { breathHoldS } = publishedLimits2017;
const faceAt = (ms: number) => holdFace(startedHold(5_000), 5_000 + ms, breathHoldS);

describe('hold', () => {
  it('tells holding, the end and too long by words of their own, at the target and past the tolerance', () => {
    expect(holdFace(notHeld, 5_000, breathHoldS)).toMatchObject({
      phase: 'ready',
      word: 'Not started',
      seconds: 0,
    });
    expect(faceAt(0)).toMatchObject({ phase: 'holding', word: 'Hold still', seconds: 0, filled: 0 });
    expect(faceAt(9_999)).toMatchObject({ phase: 'holding', seconds: 9, filled: 9 });
    expect(faceAt(10_000)).toMatchObject({ phase: 'exhale', word: 'Push home now', seconds: 10, filled: 10 });
    expect(faceAt(12_000)).toMatchObject({ phase: 'exhale', seconds: 12, filled: 10 });
    expect(faceAt(12_001)).toMatchObject({ phase: 'too-long', word: 'Too long: push home now' });
  });

  it('takes target and tolerance from the limits in force', () => {
    const shorter = { target: 7.5, tolerance: 0.5 };
    expect(holdFace(startedHold(0), 7_499, shorter)).toMatchObject({ phase: 'holding', boxes: 8, filled: 7 });
    expect(holdFace(startedHold(0), 7_500, shorter).phase).toBe('exhale');
    expect(holdFace(startedHold(0), 8_001, shorter).phase).toBe('too-long');
  });

  it('counts what was held before a pause and not the pause', () => {
    const paused = pausedHold(startedHold(1_000), 4_000);
    expect(heldMs(paused, 60_000)).toBe(3_000);
    expect(holdFace(paused, 60_000, breathHoldS)).toMatchObject({
      phase: 'holding',
      word: 'Paused',
      seconds: 3,
    });
    expect(heldMs(resumedHold(paused, 60_000), 62_000)).toBe(5_000);
  });

  it('shows the true time after the page slept, and never a time before its start', () => {
    expect(heldMs(startedHold(1_000), 600_000)).toBe(599_000);
    expect(heldMs(startedHold(1_000), 999)).toBe(0);
  });

  it('says afterwards what was held, and whether that was too short or too long', () => {
    const held = (ms: number) => heldSentence(pausedHold(startedHold(0), ms), 0, breathHoldS);
    expect(heldSentence(notHeld, 0, breathHoldS)).toBeNull();
    expect(held(10_340)).toBe('Held for 10.3 s by the timer here.');
    expect(held(8_000)).toBe('Held for 8 s by the timer here.');
    expect(held(7_900)).toMatch(/^Held for 7\.9 s by the timer here: shorter than 8 s\./);
    expect(held(12_000)).toBe('Held for 12 s by the timer here.');
    expect(held(12_100)).toMatch(/longer than 12 s\./);
    // 9.9 − 0.3 is 9.600000000000001 in binary.
    const odd = heldSentence(pausedHold(startedHold(0), 9_000), 0, { target: 9.9, tolerance: 0.3 });
    expect(odd).toMatch(/shorter than 9\.6 s\./);
  });
});
