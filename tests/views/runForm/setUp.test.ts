import { describe, expect, it } from 'vitest';
import { setUpOf } from '../../../src/views/runForm/setUp.ts';
import { analyzerAdded, syringeAdded } from '../../journal/fixtures.ts';
import { draft, ids, laboratoryDrafts, opened, run, theRun, week } from '../laboratory.ts';

const otherAnalyzer = {
  ...analyzerAdded,
  analyzerId: 'analyzer-room-5',
  label: 'Room 5',
  conversion: { kind: 'fixed', factor: 0.91 } as const,
  volumeInsideL: 1,
  analyzerDeadSpaceL: 0.15,
};
const otherSyringe = { ...syringeAdded, syringeId: 'syringe-spare', deadSpaceL: 0.085, volumeL: 3.5 };
const reason = 'put right';

/** Entries are a minute apart from 1 January on, in the order given. */
async function laboratory() {
  const { logbook } = await opened([
    draft('analyzer-added', otherAnalyzer),
    draft('syringe-added', otherSyringe),
    run(0, 3.1),
    draft('analyzer-changed', { ...otherAnalyzer, conversion: { kind: 'fixed', factor: 0.95 }, reason }),
    draft('analyzer-changed', { ...analyzerAdded, analyzerDeadSpaceL: 0.2, reason }),
    draft('syringe-changed', { ...syringeAdded, deadSpaceL: 0.2, reason }),
  ]);
  const found = <T>(thing: T | undefined): T => {
    if (thing === undefined) throw new Error('not in the laboratory');
    return thing;
  };
  return {
    amending: theRun(logbook, 0),
    own: found(logbook.analyzers.get(ids.analyzer)),
    other: found(logbook.analyzers.get(otherAnalyzer.analyzerId)),
    ownSyringe: found(logbook.syringes.get(ids.syringe)),
    spare: found(logbook.syringes.get(otherSyringe.syringeId)),
  };
}

describe('setUpOf', () => {
  it('takes a new run’s from the descriptions as they stand', async () => {
    const { other, ownSyringe } = await laboratory();
    expect(setUpOf(other, ownSyringe, [], undefined)).toEqual({
      conversion: { kind: 'fixed', factor: 0.95 },
      analyzerDeadSpaceL: 0.15,
      syringe: { strokeL: 2, volumeInsideL: 1, deadSpaceL: 0.2 },
    });
  });

  it('keeps what an amended run has, whatever the descriptions say by now', async () => {
    const { own, ownSyringe, amending } = await laboratory();
    expect(setUpOf(own, ownSyringe, [], amending)).toEqual({
      conversion: { kind: 'fixed', factor: 1 },
      analyzerDeadSpaceL: 0,
      syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0 },
    });
  });

  it('takes another analyzer’s as it was described when the run was written down', async () => {
    const { other, ownSyringe, amending } = await laboratory();
    expect(setUpOf(other, ownSyringe, [], amending)).toEqual({
      conversion: { kind: 'fixed', factor: 0.91 },
      analyzerDeadSpaceL: 0.15,
      syringe: { strokeL: 2, volumeInsideL: 1, deadSpaceL: 0 },
    });
  });

  it('takes another syringe’s volume and dead space, and leaves the analyzer’s part', async () => {
    const { own, spare, amending } = await laboratory();
    expect(setUpOf(own, spare, [], amending)).toEqual({
      conversion: { kind: 'fixed', factor: 1 },
      analyzerDeadSpaceL: 0,
      syringe: { strokeL: 3.5, volumeInsideL: 0, deadSpaceL: 0.085 },
    });
  });

  it('takes the first description of what was added only after the run', async () => {
    const { logbook } = await opened(
      [run(0, 3.1), draft('analyzer-added', otherAnalyzer)],
      laboratoryDrafts(),
    );
    const other = logbook.analyzers.get(otherAnalyzer.analyzerId);
    const syringe = logbook.syringes.get(ids.syringe);
    if (!other || !syringe) throw new Error('not in the laboratory');
    expect(week(0) > (other.history[0]?.at ?? '')).toBe(true);
    expect(setUpOf(other, syringe, [], theRun(logbook, 0)).conversion).toEqual({
      kind: 'fixed',
      factor: 0.91,
    });
  });

  it('counts what is left on the syringe with its dead space, and without it again', async () => {
    const { other, ownSyringe } = await laboratory();
    const filter = { name: 'Filter', volumeL: 0.035 };
    const hose = { name: 'Hose', volumeL: 0.08 };
    // 200 mL of the description, and 115 mL more.
    expect(setUpOf(other, ownSyringe, [filter, hose], undefined).syringe.deadSpaceL).toBe(0.315);
    const { logbook } = await opened([
      run(0, 3.1, { syringe: { strokeL: 3, volumeInsideL: 0, deadSpaceL: 0.315 }, attached: [filter, hose] }),
    ]);
    const analyzer = logbook.analyzers.get(ids.analyzer);
    const syringe = logbook.syringes.get(ids.syringe);
    if (!analyzer || !syringe) throw new Error('not in the laboratory');
    const amending = theRun(logbook, 0);
    const deadSpaceWith = (attached: Parameters<typeof setUpOf>[2]) =>
      setUpOf(analyzer, syringe, attached, amending).syringe.deadSpaceL;
    expect(deadSpaceWith([filter, hose])).toBe(0.315);
    expect(deadSpaceWith([hose])).toBe(0.28);
    expect(deadSpaceWith([])).toBe(0.2);
    // Another syringe never had them in its own 110 mL.
    const spare = { ...syringe, id: 'syringe-spare' };
    expect(setUpOf(analyzer, spare, [hose], amending).syringe.deadSpaceL).toBe(0.19);
  });
});
