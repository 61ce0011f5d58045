/** On which analyzers somebody was tested as a biological control. Pure. */
import type { Logbook } from '../../journal/logbook.ts';

export interface TestsOnAnalyzer {
  analyzerId: string;
  label: string;
  /** Without the voided ones. */
  count: number;
  /** ISO 8601 instant and zone of the newest; null for an analyzer on which none was made. */
  last: { at: string; zone: string } | null;
  /** In use: another test can be made on it. */
  isInUse: boolean;
}

/** Every analyzer in use, and those no longer in use on which a test was made. */
export function testsOfSubject(
  { analyzers, controls }: Pick<Logbook, 'analyzers' | 'controls'>,
  subjectId: string,
): TestsOnAnalyzer[] {
  const ofSubject = controls.filter(
    ({ control, voided }) =>
      voided === null && control.kind === 'biological' && control.subjectId === subjectId,
  );
  return [...analyzers.values()].flatMap(({ id, description: { label }, retired }) => {
    const made = ofSubject.filter(({ control }) => control.analyzerId === id);
    const newest = made.at(-1);
    if (retired !== null && newest === undefined) return [];
    const last = newest === undefined ? null : { at: newest.control.madeAt, zone: newest.entry.zone };
    return [{ analyzerId: id, label, count: made.length, last, isInUse: retired === null }];
  });
}
