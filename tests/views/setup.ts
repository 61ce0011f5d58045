import '@testing-library/jest-dom/vitest';
import { cleanup } from '@testing-library/react';
import { afterEach, beforeEach, expect, vi } from 'vitest';
import { listenForComplaints, takeComplaints } from './complaints.ts';

beforeEach(listenForComplaints);

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  expect(takeComplaints(), 'console errors and warnings').toEqual([]);
});
