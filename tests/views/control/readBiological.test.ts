import { describe, expect, it } from 'vitest';
import { publishedCheckLimits } from '../../../src/core/index.ts';
import type { BiologicalDraft } from '../../../src/views/control/controlDraft.ts';
import { draftOfBiological } from '../../../src/views/control/controlDraft.ts';
import { readBiological } from '../../../src/views/control/readBiological.ts';
import { biological, controlId, subject, subjectAdded } from '../controlDrafts.ts';
import { draft, ids, opened, week } from '../laboratory.ts';
import { firstSix, subjectSet, typedTest } from './typed.ts';

const now = Date.parse(week(6));

async function read(changes: Partial<BiologicalDraft> = {}, entries = [subjectAdded()], at = now) {
  const { logbook } = await opened(entries);
  return readBiological(typedTest(changes), { logbook, now: at });
}

describe('readBiological', () => {
  it('makes a control of what was typed, point and comma alike, with the limits of its day', async () => {
    const { control, missing, questions } = await read({
      dlco: '25,4',
      va: '5.92',
      inspiredVolume: '4,8',
      haemoglobin: '14.2',
      comment: ' After lunch. ',
    });
    const { biological: limits, edition } = publishedCheckLimits;
    expect(control).toEqual({
      kind: 'biological',
      madeAt: week(6),
      analyzerId: ids.analyzer,
      technologistId: ids.supervisor,
      comment: 'After lunch.',
      subjectId: subject,
      reading: { dlco: 25.4, dlcoUnit: 'mL/min/mmHg', vaL: 5.92, inspiredVolumeL: 4.8 },
      haemoglobin: { value: 14.2, unit: 'g/dL' },
      limits: { edition, ...limits },
    });
    expect(missing).toEqual({});
    expect(questions).toEqual([]);
  });

  it('takes the limits that the laboratory adopted before', async () => {
    const { edition: _, ...published } = publishedCheckLimits;
    const adopted = draft('check-limits-adopted', {
      adoptionId: 'adoption-of-ours',
      limits: {
        ...published,
        edition: 'Ours',
        biological: { ...published.biological, fraction: 0.1 },
      },
      from: week(1),
      reason: 'Stricter.',
    });
    const { control } = await read({}, [subjectAdded(), adopted]);
    expect(control?.limits).toMatchObject({ edition: 'Ours', fraction: 0.1 });
  });

  it.each<[string, Partial<BiologicalDraft>, string, RegExp]>([
    [
      'a DLCO ten times too large',
      { dlco: '251' },
      'dlco',
      /251 mL\/min\/mmHg cannot be\. Was 25\.1 meant\?/,
    ],
    ['a DLCO of a syringe', { dlco: '0.2' }, 'dlco', /cannot be/],
    ['a VA in mL', { va: '5920' }, 'va', /looks like mL \(5\.92 L\)/],
    ['words', { inspiredVolume: 'much' }, 'inspiredVolume', /“much” is not a number/],
    ['haemoglobin in g/L', { haemoglobin: '142' }, 'haemoglobin', /looks like g\/L \(14\.2 g\/dL\)/],
    ['a year of two digits', { madeAt: '0026-03-02T08:00' }, 'madeAt', /a year of four digits/],
  ])('refuses %s beside its field', async (_, changes, field, message) => {
    const { errors, control } = await read(changes);
    expect(Object.keys(errors)).toEqual([field]);
    expect(Object.values(errors)[0]?.message).toMatch(message);
    expect(control).toBeNull();
  });

  it('offers the unit that the number is right in', async () => {
    const { errors } = await read({ haemoglobin: '142' });
    expect(errors.haemoglobin?.slip).toEqual({ kind: 'unit', unit: 'g/L' });
  });

  it('asks for subject, DLCO, VA and who made it, and judges without the last alone', async () => {
    const { missing, control } = await read({ subjectId: '', dlco: '', va: '', technologistId: '' });
    expect(Object.keys(missing).sort()).toEqual(['dlco', 'subjectId', 'technologistId', 'va']);
    expect(control).toBeNull();
    expect((await read({ technologistId: '' })).control).not.toBeNull();
  });

  it('refuses who is paused on that day and names the reason, not one made before the pause', async () => {
    const entries = [subjectAdded(), subjectSet('paused', week(4), 'Sprained ankle')];
    const { errors } = await read({}, entries);
    expect(errors.subjectId?.message).toMatch(/^B1 is paused since 2 Feb 2026: Sprained ankle\. /);
    const earlier = await read({ madeAt: '2026-01-20T08:00' }, entries);
    expect(earlier.errors).toEqual({});
    expect(earlier.control?.madeAt).toMatch(/^2026-01-20T/);
  });

  it('writes down a test of who is excluded, and says that it counts in no mean', async () => {
    const { errors, warnings, control } = await read({}, [subjectAdded(), subjectSet('excluded', week(4))]);
    expect(errors).toEqual({});
    expect(warnings.subjectId).toMatch(/^B1 is excluded since 2 Feb 2026: On leave\. .*counts in no mean\.$/);
    expect(control).not.toBeNull();
  });

  it('refuses who has left', async () => {
    const left = draft('subject-retired', { subjectId: subject, reason: 'Moved away' });
    const { errors } = await read({}, [subjectAdded(), left], Date.parse(week(60)));
    expect(errors.subjectId?.message).toMatch(/^B1 has left since .*: Moved away\.$/);
  });

  it('wonders at a number in another unit than the person’s usual, and at VA below the inspired volume', async () => {
    const { warnings } = await read({ dlco: '8.5', va: '4.8', inspiredVolume: '5.92', haemoglobin: '8.8' }, [
      subjectAdded(),
      ...firstSix(),
    ]);
    expect(warnings.dlco).toBe(
      'Far from this person’s usual 25.00 mL/min/mmHg. Is the unit right, and the person?',
    );
    expect(warnings.inspiredVolume).toMatch(/Are the two exchanged\?$/);
    expect(warnings.haemoglobin).toBe('Far from this person’s usual 14.2 g/dL. Is the unit right?');
    // 8.5 mmol/min/kPa is 25.4 mL/min/mmHg, and 8.8 mmol/L 14.2 g/dL: as usual.
    const inUnit = await read(
      { dlco: '8.5', dlcoUnit: 'mmol/min/kPa', haemoglobin: '8.8', haemoglobinUnit: 'mmol/L' },
      [subjectAdded(), ...firstSix()],
    );
    expect(inUnit.warnings).toEqual({});
  });

  it.each([
    // 24 mmol/min/kPa are 71.7 mL/min/mmHg, and 8.5 mL/min/mmHg 2.8 mmol/min/kPa: each a third or three times of what is usual.
    ['24', 'mmol/min/kPa', '5.92', '4.054 mmol/min/kPa'],
    ['8.5', 'mL/min/mmHg', '5.92', '1.44 mL/min/mmHg'],
    ['25.4', 'mL/min/mmHg', '0.59', '43.05 mL/min/mmHg'],
  ] as const)(
    'asks of a first test whether %s %s beside a VA of %s L is meant',
    async (dlco, dlcoUnit, va, perLitre) => {
      const { warnings, questions, control } = await read({ dlco, dlcoUnit, va });
      const doubt = `${perLitre} for each litre of VA: hardly a healthy person’s. Are the unit and both numbers right?`;
      expect(warnings.dlco).toBe(doubt);
      expect(questions).toEqual([expect.stringMatching(/^DLCO is [\d.]+ m(L|mol)\//)]);
      expect(questions[0]).toContain(doubt);
      expect(control).not.toBeNull();
    },
  );

  it.each([
    ['8.5', 'mmol/min/kPa', '5.92'],
    ['18.2', 'mL/min/mmHg', '5.9'],
    ['16', 'mL/min/mmHg', '2.3'],
  ] as const)('asks nothing of a first test of %s %s beside a VA of %s L', async (dlco, dlcoUnit, va) => {
    const { warnings, questions } = await read({ dlco, dlcoUnit, va });
    expect([warnings, questions]).toEqual([{}, []]);
  });

  it('knows a person’s usual from another analyzer, and asks before it writes down one far from it', async () => {
    const { logbook } = await opened([subjectAdded(), ...firstSix()]);
    const draft = typedTest({ analyzerId: 'another', dlco: '80', va: '10' });
    expect(readBiological(draft, { logbook, now }).warnings.dlco).toMatch(
      /^Far from this person’s usual 25\.00 /,
    );
    const { questions } = await read({ dlco: '9' }, [subjectAdded(), ...firstSix()]);
    expect(questions).toEqual([
      'DLCO is 9.00 mL/min/mmHg. Far from this person’s usual 25.00 mL/min/mmHg. Is the unit right, and the person?',
    ]);
  });

  it('asks about a date to come, one before the last test, and the same numbers again', async () => {
    const entries = [subjectAdded(), ...firstSix()];
    const toCome = await read({ madeAt: '2026-03-01T08:00' }, entries);
    expect(toCome.questions).toEqual([expect.stringMatching(/still to come/)]);
    const before = await read({ madeAt: '2026-01-20T08:00' }, entries);
    expect(before.questions).toEqual([
      expect.stringMatching(/^The last test of B1 on this analyzer was made on 9 Feb 2026/),
    ]);
    const again = await read({ dlco: '24.7', va: '5.97' }, entries, Date.parse(week(5)) + 3_600_000);
    expect(again.questions).toEqual([
      expect.stringMatching(/^The same readings were recorded .*Is this another/),
    ]);
  });

  it('asks about an analyzer out of service and a clock set back', async () => {
    const out = draft('service-set', {
      serviceId: 'service-of-analyzer',
      analyzerId: ids.analyzer,
      inService: false,
      from: week(2),
      reason: 'Valve sticks',
    });
    const { questions, warnings } = await read({}, [subjectAdded(), out]);
    expect(warnings.analyzerId).toMatch(/out of service since .*Valve sticks\.$/);
    expect(questions).toEqual([expect.stringMatching(/out of service/)]);
    const back = await read({}, [subjectAdded()], Date.parse('2025-01-01T00:00:00.000Z'));
    expect(back.questions).toEqual([expect.stringMatching(/Has the clock been set back\?$/)]);
  });

  it('reads back what was written, digit for digit', async () => {
    const written = biological(0, 25.437, {
      madeAt: '2026-01-05T09:00:12.345Z',
      reading: { dlco: 8.5121, dlcoUnit: 'mmol/min/kPa', vaL: 5.905, inspiredVolumeL: 4.801 },
      haemoglobin: { value: 8.83, unit: 'mmol/L' },
      comment: 'As usual.',
    });
    const { logbook } = await opened([subjectAdded(), written]);
    const amending = logbook.controls.find(({ id }) => id === controlId(0));
    if (amending?.control.kind !== 'biological') throw new Error('no test');
    const { control, questions } = readBiological(draftOfBiological(amending.control), {
      logbook,
      now,
      amending,
    });
    expect(control).toEqual(amending.control);
    expect(questions).toEqual([]);
  });
});
