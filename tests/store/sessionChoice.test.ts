import { afterEach, describe, expect, it, vi } from 'vitest';
import { keepSessionChoice, readSessionChoice } from '../../src/store/sessionChoice.ts';

afterEach(() => vi.unstubAllGlobals());

describe('a choice for one visit', () => {
  it('is read back under its own name', () => {
    const kept = new Map<string, string>();
    vi.stubGlobal('sessionStorage', {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, value: string) => kept.set(name, value),
    });
    expect(readSessionChoice('axis')).toBeNull();
    keepSessionChoice('axis', 'z');
    expect(readSessionChoice('axis')).toBe('z');
    expect(readSessionChoice('other')).toBeNull();
  });

  it('is none, and stops nobody, where the small storage is forbidden', () => {
    vi.stubGlobal('sessionStorage', {
      getItem: () => {
        throw new Error('forbidden');
      },
      setItem: () => {
        throw new Error('forbidden');
      },
    });
    expect(() => keepSessionChoice('axis', 'z')).not.toThrow();
    expect(readSessionChoice('axis')).toBeNull();
  });
});
