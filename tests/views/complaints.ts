import { vi } from 'vitest';

const complaints: string[] = [];

/** React reports its faults (a missing key, an update outside act) on the console and goes on: they are collected. */
export function listenForComplaints() {
  complaints.length = 0;
  const complain = (...parts: unknown[]) => {
    complaints.push(parts.map(String).join(' '));
  };
  vi.spyOn(console, 'error').mockImplementation(complain);
  vi.spyOn(console, 'warn').mockImplementation(complain);
}

/** Hands over the complaints so far and forgets them: what a test takes on purpose does not fail it. */
export const takeComplaints = () => complaints.splice(0);
