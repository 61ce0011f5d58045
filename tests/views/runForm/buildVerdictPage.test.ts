// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultControlPolicy } from '../../../src/core/index.ts';
import type { EntryDraft } from '../../../src/journal/entries.ts';
import { judgementOf } from '../../../src/journal/judgement.ts';
import { listFailures } from '../../../src/views/failures.ts';
import { assessOnTheBench } from '../../../src/views/runForm/assessOnTheBench.ts';
import type { BenchDraft } from '../../../src/views/runForm/benchDraft.ts';
import { buildVerdictPage, type VerdictPage } from '../../../src/views/runForm/buildVerdictPage.ts';
import { situationOf } from '../../../src/views/runForm/situation.ts';
import {
  type FigureRow,
  otherConversionSentence,
  verdictFigures,
} from '../../../src/views/runForm/verdictFigures.ts';
import { whatToDo } from '../../../src/views/runForm/whatToDo.ts';
import { analyzerAdded, syringeAdded } from '../../journal/fixtures.ts';
import { closure, draft, laboratoryDrafts, opened, run, tenGoodRuns, week } from '../laboratory.ts';
import { localText, noon, readRun } from './drafts.ts';

type Verdict = VerdictPage & {
  word: string;
  whatToDo: string;
  otherConversion: string | null;
  figures: readonly FigureRow[];
  figure: (name: string) => string;
};

/** The verdict page of a typed run, on a laboratory of this analyzer and syringe with these runs. */
async function pageOf(
  typed: Partial<BenchDraft>,
  {
    runs = [],
    analyzer = {},
    deadSpaceL = 0.11,
  }: { runs?: readonly EntryDraft[]; analyzer?: Partial<typeof analyzerAdded>; deadSpaceL?: number } = {},
): Promise<Verdict> {
  const [people] = laboratoryDrafts();
  if (!people) throw new Error('nobody works here');
  const { logbook, assessments } = await opened(runs, [
    people,
    draft('syringe-added', { ...syringeAdded, deadSpaceL }),
    draft('analyzer-added', { ...analyzerAdded, ...analyzer }),
  ]);
  const onTheBench = readRun(typed, logbook, Date.parse(week(30)));
  const assessment = assessOnTheBench(onTheBench, { logbook, assessments });
  const page = buildVerdictPage(onTheBench, assessment, defaultControlPolicy);
  const { minimumSize } = defaultControlPolicy;
  const situation = situationOf(
    { run: onTheBench, runId: null, assessment, minimumSize, now: Date.parse(onTheBench.madeAt) },
    logbook,
    listFailures(logbook, assessments),
  );
  const figures = verdictFigures(onTheBench, assessment, defaultControlPolicy);
  return {
    ...page,
    word: assessment.verdict.word,
    whatToDo: whatToDo(situation).sentence,
    otherConversion: otherConversionSentence(onTheBench, assessment),
    figures,
    figure: (name) => {
      const row = figures.find((each) => each.name === name);
      if (!row) throw new Error(`no figure is called ${name}`);
      return [row.value, row.unit, row.note].filter((part) => part !== '').join(' | ');
    },
  };
}

/** The fixed factor 1 and no dead space: the simulated VA is what is typed. */
const asReported = { analyzer: { conversion: { kind: 'fixed', factor: 1 } as const }, deadSpaceL: 0 };

// 22 °C, 760 mmHg, dry: (760 − 47)/310.15 ÷ 760/295.15 = 0.8928; 3.45 × 0.8928 − 0.110 = 2.970 L; × 0.91: 3.030 L.
describe('3.45 L BTPS at 22 °C and 760 mmHg with 110 mL of dead space', () => {
  it('is 2.970 L computed, and the fixed 0.91 would have given 3.030 L', async () => {
    const page = await pageOf({});
    expect(page.figure('Conversion factor')).toBe('0.8928 | computed from the room, dry test gas');
    expect(page.figure('Ambient VA')).toBe('3.080 | L | at the room’s conditions, dry');
    expect(page.figure('Dead space taken off')).toBe('110 | mL | syringe and what is attached to it');
    expect(page.figure('Simulated VA')).toBe('2.970 | L | −30 mL from 3 L');
    expect(page.otherConversion).toBe('The fixed 0.91 would have given 3.030 L, 59 mL higher.');
  });

  it('is 3.030 L by the fixed factor, which says what the room would have given and how far it is off', async () => {
    const page = await pageOf({}, { analyzer: { conversion: { kind: 'fixed', factor: 0.91 } } });
    expect(page.figure('Conversion factor')).toBe('0.9100 | fixed factor 0.91');
    expect(page.figure('Simulated VA')).toMatch(/^3\.030 \| L \| \+(29|30) mL from 3 L$/); // 3.0295 L, half-way
    expect(page.otherConversion).toBe(
      'Computed for this room (0.8928) it would be 2.970 L, 59 mL lower. The fixed factor is 59 mL off here.',
    );
  });

  it('names no other choice where VA is not reported in BTPS: there is nothing to undo', async () => {
    const page = await pageOf({ vaReportedAs: 'ATPD', va: '3.08' });
    expect(page.otherConversion).toBeNull();
    expect(page.figure('Conversion factor')).toBe('1.0000 | from ATPD');
    expect(page.figure('Simulated VA')).toBe('2.970 | L | −30 mL from 3 L');
  });
});

// BTPS → dry at 22 °C and 630 mmHg is 1/1.1356 (derived): (0.91 − 0.8806) × 3.45 L = 101 mL, "about 100".
describe('at 630 mmHg', () => {
  it('a fixed factor says that it is about 100 mL off here', async () => {
    const typed = { pressure: '630' };
    const fixed = await pageOf(typed, { analyzer: { conversion: { kind: 'fixed', factor: 0.91 } } });
    expect(fixed.otherConversion).toMatch(/The fixed factor is 101 mL off here\.$/);
    expect((await pageOf(typed)).otherConversion).toMatch(/, 101 mL higher\.$/);
  });
});

describe('the sentences', () => {
  it('say before there are own limits how many runs are still wanted', async () => {
    const page = await pageOf({}, { runs: tenGoodRuns().slice(0, 4) });
    expect(page.found).toEqual([
      'Simulated VA is 30 mL low. No own limits yet (4 of 10 runs); inside the published 300 mL.',
      'DLCO is 0.12 mL/min/mmHg. No own limits yet (4 of 10 runs); below the published 0.5.',
    ]);
    expect(page.figure('VA against own runs')).toBe('– | 4 of 10 accepted runs so far');
    expect(page.whatToDo).toBe('Patients may be tested. Run weekly until your own limits can judge.');
  });

  // The ten runs: mean 3.000, SD √(0.0042/9) = 0.02160 L. z of 3.092 is 0.092/0.0216 = 4.26; of 3.05, 2.31; of 3.02, 0.93.
  it('say z, which own limit is passed, and that the published one is not', async () => {
    const page = await pageOf({ va: '3.092', dlco: '0' }, { ...asReported, runs: tenGoodRuns() });
    expect(page.found[0]).toBe(
      'Simulated VA is 92 mL high (z +4.3). Outside your 3 SD, 92 mL above your mean, inside the published 300 mL.',
    );
    expect(page.reasons).toContain('VA: 1-3s, one run beyond 3 SD.');
    expect(page.figure('VA against own runs')).toBe('z +4.26 | mean 3.000, SD 0.0216 L, n 10');
    expect(page.word).toBe('fail');
    expect(page.whatToDo).toBe('Stop: no patients. Repeat once to rule out a slip.');
  });

  it('tell 2 SD from 3 SD and from inside', async () => {
    const laboratory = { ...asReported, runs: tenGoodRuns() };
    const beyond2 = await pageOf({ va: '3.05', dlco: '0' }, laboratory);
    expect(beyond2.found[0]).toMatch(/^Simulated VA is 50 mL high \(z \+2\.3\)\. Outside your 2 SD, /);
    expect(beyond2.word).toBe('warn');
    expect(beyond2.whatToDo).toMatch(/^Patients may be tested\. Run once more today/);
    const inside = await pageOf({ va: '2.98', dlco: '0' }, laboratory);
    expect(inside.found).toEqual([
      'Simulated VA is 20 mL low (z −0.9). Inside your 2 SD, inside the published 300 mL.',
      'DLCO is 0.00 mL/min/mmHg (z 0.0). Inside your 2 SD, below the published 0.5.',
    ]);
    expect(inside.word).toBe('pass');
    expect(inside.whatToDo).toBe('Patients may be tested.');
  });

  it('say "on target" for less than half a mL', async () => {
    const page = await pageOf({ va: '3' }, asReported);
    expect(page.found[0]).toMatch(/^Simulated VA is on target\. /);
  });

  // "3 ± 0.3" includes its ends, "< 0.5" does not: the published table's own wording.
  it('keep to the published ends: 3.30 L is inside, 0.5 is not below', async () => {
    const page = await pageOf({ va: '3.3', dlco: '-0.5' }, asReported);
    expect(page.found[0]).toMatch(/300 mL high\. .*inside the published 300 mL\.$/);
    expect(page.found[1]).toMatch(/^DLCO is −0\.50 .*not below the published 0\.5\.$/);
    expect(page.figure('DLCO published limit')).toBe('< 0.5 | mL/min/mmHg | not below');
  });

  it('never round a value on to the limit that it lies beyond or below', async () => {
    const page = await pageOf({ va: '3.3004', dlco: '0.497' }, asReported);
    expect(page.found[0]).toMatch(/is 300\.4 mL high\. .*outside the published 300 mL\.$/);
    expect(page.found[1]).toMatch(/^DLCO is 0\.497 .*below the published 0\.5\.$/);
    expect(page.figure('DLCO')).toMatch(/^0\.497 \| mL\/min\/mmHg/);
  });

  it('say that runs without any spread cannot judge', async () => {
    const same = Array.from({ length: 10 }, (_, index) => run(index, 3, { dlco: 0.01 }));
    const page = await pageOf({ va: '3.01', dlco: '0.01' }, { ...asReported, runs: same });
    expect(page.found[0]).toMatch(/Own limits cannot judge \(no spread\); inside/);
    expect(page.figure('VA against own runs')).toBe('– | the runs so far have no spread');
  });
});

// 0.166 mmol/min/kPa × 2.987 = 0.496 mL/min/mmHg: two limits, neither converted into the other.
describe('DLCO in mmol/min/kPa', () => {
  const dlcoUnit = 'mmol/min/kPa' as const;

  it('is written, limited and compared in its own unit', async () => {
    const page = await pageOf({ dlco: '-0.1', dlcoUnit }, { runs: tenGoodRuns() });
    expect(page.found[1]).toMatch(/^DLCO is −0\.100 mmol\/min\/kPa \(z .*below the published 0\.166\.$/);
    // SD of ±0.02 mL/min/mmHg five times each: 0.02 √(10/9) = 0.02108; ÷ 2.987 = 0.00706.
    expect(page.figure('DLCO against own runs')).toMatch(
      /mean 0\.0000, SD 0\.0070[56] mmol\/min\/kPa, n 10$/,
    );
  });

  it('0.166 is not below its limit, 0.1659 is', async () => {
    expect((await pageOf({ dlco: '0.166', dlcoUnit })).figure('DLCO published limit')).toMatch(/not below$/);
    expect((await pageOf({ dlco: '0.1659', dlcoUnit })).figure('DLCO published limit')).toMatch(/\| below$/);
  });
});

describe('the conduct of the run', () => {
  // 0.5 mL/min/mmHg at VA 3.3 L BTPS and 10 s: CO 2.16 % low (derived).
  it('the disagreement of CO and tracer stands beside DLCO, with the breath-hold it assumes', async () => {
    const assumed = await pageOf({ va: '3.3', dlco: '0.5' });
    expect(assumed.figure('DLCO')).toBe(
      '0.50 | mL/min/mmHg | CO reads 2.16 % low against the tracer, for a breath-hold of 10 s',
    );
    const held = await pageOf({ va: '3.3', dlco: '-0.5', breathHold: '10' });
    expect(held.figure('DLCO')).toMatch(/high against the tracer$/);
  });

  // 3 L ÷ 0.8928 = 3.360 L expected; 3.5 is 4.2 % above.
  it('a volume check is a row and, beyond 3 %, a reason', async () => {
    const page = await pageOf({ volumeCheck: '3.5' });
    expect(page.figure('Volume check')).toBe('+4.2 | % | 3.360 L expected in this room');
    expect(page.reasons).toEqual([
      'The volume check is 4.2 % high, outside ±3 %: look at volume measurement first.',
    ]);
    expect((await pageOf({ volumeCheck: '3.2' })).figure('Volume check')).toMatch(/^−4\.8 \|/);
    expect((await pageOf({})).figures.map(({ name }) => name)).not.toContain('Volume check');
  });

  it('a breath-hold of 12 s is inside 10 ± 2 s, 12.1 s is a reason', async () => {
    expect((await pageOf({ breathHold: '12' })).reasons).toEqual([]);
    expect((await pageOf({ breathHold: '12.1' })).reasons).toEqual([
      'Breath-hold time 12.1 s is outside 10 ± 2 s.',
    ]);
  });
});

// z of 3.09 is 0.09/0.0216 = 4.2, of 3.2 9.3; the weighted average then stands at 0.83 and 1.85, its limit is 0.953.
describe('while a failure is open', () => {
  const next = { va: '3.01', dlco: '0', madeAt: localText(Date.parse(week(11))) };

  it('a good run does not give the analyzer back: a supervisor closes the failure', async () => {
    const failed = [...tenGoodRuns(), run(10, 3.09)];
    const page = await pageOf(next, { ...asReported, runs: failed });
    expect(page.word).toBe('pass');
    expect(page.whatToDo).toBe(
      'No patients yet: this run is good, but only a supervisor closes the failure.',
    );
    const closed = await pageOf(next, { ...asReported, runs: [...failed, closure(10, week(10.5))] });
    expect(closed.whatToDo).toBe('Patients may be tested.');
  });

  it('a run that a warning rule notices is not called good', async () => {
    const page = await pageOf(next, { ...asReported, runs: [...tenGoodRuns(), run(10, 3.2)] });
    expect(page.word).toBe('warn');
    expect(page.whatToDo).toBe(
      'No patients: a failure is open, and this run is not clear. Tell the supervisor.',
    );
  });
});

describe('assessOnTheBench', () => {
  it('judges a back-dated run by the runs before its own date alone', async () => {
    const { logbook, assessments } = await opened([...tenGoodRuns(), run(12, 3.9), run(13, 3.9)]);
    const backDated = assessOnTheBench(readRun({ madeAt: localText(Date.parse(week(5))) }, logbook), {
      logbook,
      assessments,
    });
    // Weeks 0 to 5, the run of week 5 itself at the same instant.
    expect(backDated.va.n).toBe(6);
    expect(backDated.va.failureOpen).toBe(false);
    const today = assessOnTheBench(readRun({}, logbook, noon + 365 * 86_400_000), {
      logbook,
      assessments,
    });
    expect(today.va).toMatchObject({ n: 10, failureOpen: true });
  });

  it('leaves out voided runs, the other route and other analyzers', async () => {
    const { logbook, assessments } = await opened([
      run(0, 3),
      run(1, 3.01),
      draft('run-voided', { runId: 'run-number-1', reason: 'Leaking coupling.' }),
      run(2, 3, { route: 'built-in' }),
      run(3, 3, { analyzerId: 'analyzer-room-3' }),
    ]);
    expect(assessOnTheBench(readRun({}, logbook), { logbook, assessments }).va.n).toBe(1);
  });

  it('gives what the run will be given when it is recorded, at any place among the runs', async () => {
    const recorded = [...tenGoodRuns(), run(11, 3.03), run(13, 3.9, { route: 'built-in' })];
    const { logbook, assessments } = await opened(recorded);
    // Before the newest of its series, at its moment, after it, and after the other route's as well.
    for (const place of [10, 11, 12, 14]) {
      const after = await opened([...recorded, run(place, 3.07, { runId: 'the-added-run' })]);
      const added = after.logbook.runs.find(({ id }) => id === 'the-added-run');
      const expected = after.assessments.get('the-added-run');
      if (!added || !expected) throw new Error('nothing was added');
      const found = assessOnTheBench(added.body, { logbook, assessments });
      expect(judgementOf(found)).toEqual(judgementOf(expected));
      expect(found.va.n).toBeGreaterThanOrEqual(10);
    }
  });
});
