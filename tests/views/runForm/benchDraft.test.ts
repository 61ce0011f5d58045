// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Logbook } from '../../../src/journal/logbook.ts';
import { draftAfterRecording, draftForAnalyzer, emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import { analyzerAdded } from '../../journal/fixtures.ts';
import { draft, ids, opened, run, theRun } from '../laboratory.ts';
import { filled, laboratoryWith } from './drafts.ts';

describe('draftForAnalyzer', () => {
  const analyzerOf = (book: Logbook) => {
    const analyzer = book.analyzers.get(ids.analyzer);
    if (!analyzer) throw new Error('no analyzer');
    return analyzer;
  };

  it("takes the description's syringe, route and units before the first run", async () => {
    const metric = await laboratoryWith({
      analyzer: { route: 'built-in', pressureUnit: 'hPa', dlcoUnit: 'mmol/min/kPa', vaReportedAs: 'ATPS' },
    });
    expect(draftForAnalyzer({ ...emptyDraft, temperature: '21' }, analyzerOf(metric), undefined)).toEqual({
      ...emptyDraft,
      temperature: '21',
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      route: 'built-in',
      pressureUnit: 'hPa',
      dlcoUnit: 'mmol/min/kPa',
      vaReportedAs: 'ATPS',
    });
  });

  it('remembers the last run, until the description is changed', async () => {
    const builtIn = run(0, 3, { route: 'built-in', pressureAsTyped: { value: 101.3, unit: 'kPa' } });
    const remembered = await opened([builtIn]);
    expect(
      draftForAnalyzer(emptyDraft, analyzerOf(remembered.logbook), theRun(remembered.logbook, 0)),
    ).toMatchObject({ route: 'built-in', pressureUnit: 'kPa' });
    const changed = await opened([
      builtIn,
      draft('analyzer-changed', { ...analyzerAdded, pressureUnit: 'hPa', reason: 'New barometer.' }),
    ]);
    expect(
      draftForAnalyzer(emptyDraft, analyzerOf(changed.logbook), theRun(changed.logbook, 0)),
    ).toMatchObject({
      route: 'patient-test',
      pressureUnit: 'hPa',
    });
  });

  it('leaves who, where and the units after recording, and every reading blank', () => {
    const units = { pressureUnit: 'hPa', vaReportedAs: 'ATPS', dlcoUnit: 'mmol/min/kPa' } as const;
    const recorded = { ...filled, ...units, route: 'built-in', reason: 'repeat' } as const;
    const typed = { madeAt: '2026-03-02T08:45', humidity: '45', breathHold: '10.1', comment: 'x' };
    expect(draftAfterRecording({ ...recorded, ...typed })).toEqual({
      ...emptyDraft,
      ...units,
      analyzerId: ids.analyzer,
      syringeId: ids.syringe,
      technologistId: ids.supervisor,
      route: 'built-in',
      reason: 'weekly',
      madeAt: '',
    });
  });
});
