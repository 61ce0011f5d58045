// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { Logbook } from '../../../src/journal/logbook.ts';
import {
  draftAfterRecording,
  draftForAnalyzer,
  emptyDraft,
  isBlank,
} from '../../../src/views/runForm/benchDraft.ts';
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
    const after = draftAfterRecording({
      ...filled,
      route: 'built-in',
      reason: 'repeat',
      humidity: '45',
      comment: 'x',
    });
    expect(isBlank(after)).toBe(true);
    expect(after).toMatchObject({
      analyzerId: ids.analyzer,
      technologistId: ids.supervisor,
      route: 'built-in',
      reason: 'weekly',
      madeAt: '',
    });
    expect(isBlank(filled)).toBe(false);
  });
});
