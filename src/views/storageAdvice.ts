/** What a person is told of each storage problem. Fetched ahead of need: when a disk is full nothing may be left to fetch. */
import type { StorageProblem } from '../store/openLogbook.ts';

export interface StorageAdvice {
  title: string;
  what: string;
}

const advice: Record<StorageProblem['reason'], StorageAdvice> = {
  quota: {
    title: 'The disk is full',
    what: 'The browser could not store more. Free space on this computer, then try again: what you typed is kept on the page.',
  },
  blocked: {
    title: 'Another tab holds the logbook',
    what: 'The logbook is being brought to a newer version in another tab. Close the other tabs of the logbook, then reload this one.',
  },
  unavailable: {
    title: 'This browser does not let the logbook store anything',
    what: 'Private windows and strict privacy settings block the storage that the logbook needs. Open it in an ordinary window, or allow site data for this address.',
  },
  'newer-version': {
    title: 'The logbook was opened by a newer version',
    what: 'Reload this page to get the newer version. Until then nothing is written from here.',
  },
  conflict: {
    title: 'Two tabs wrote at the same time',
    what: 'The entry was not written. Try again.',
  },
  'missing-entries': {
    title: 'Entries are missing',
    what: 'The logbook held more than it does now. Reload the page: it says what is known and how to go on.',
  },
  unknown: {
    title: 'The logbook could not be opened or written',
    what: 'Reload the page. What was recorded before is not touched by this.',
  },
};

export const storageAdvice = (problem: StorageProblem): StorageAdvice => advice[problem.reason];
