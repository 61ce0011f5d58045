// @vitest-environment node
import { describe, expect, it } from 'vitest';
import {
  type AttachmentDraft,
  askAboutSyringe,
  emptySyringe,
  readAttachment,
  readSyringe,
  syringeDraftOf,
} from '../../../src/views/equipment/readSyringe.ts';

const typed = { ...emptySyringe, label: '3 L syringe A', deadSpaceMl: '110' };
const described = (changes: Partial<typeof typed>) => {
  const reading = readSyringe({ ...typed, ...changes });
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors));
  return reading.description;
};
const errorsOf = (changes: Partial<typeof typed>) => {
  const reading = readSyringe({ ...typed, ...changes });
  return reading.ok ? {} : reading.errors;
};
const row = (name: string, volumeMl: string, key = name): AttachmentDraft => ({ key, name, volumeMl });

describe('the volume from the certificate', () => {
  it('is kept to its last digit beside the nominal one, and left out where nobody knows it', () => {
    expect(described({ certifiedVolumeL: '2.9987' })).toMatchObject({ volumeL: 3, certifiedVolumeL: 2.9987 });
    expect('certifiedVolumeL' in described({})).toBe(false);
    expect(syringeDraftOf(described({ certifiedVolumeL: '2.9987' })).certifiedVolumeL).toBe('2.9987');
  });

  it('typed in mL is recognised', () => {
    expect(errorsOf({ certifiedVolumeL: '2999' })).toEqual({
      certifiedVolumeL: '2999 L cannot be: it looks like mL (2.999 L). Expected: volume from 1 to 7 L.',
    });
  });

  // A syringe is held to ±0.5 % (ATS laboratory manual, 3rd ed.); asking from ±2 % on is common practice, no source.
  it.each(['2.94', '3.06', '3.00'])(
    '%s L lies within 0.06 L of 3 L and raises no question',
    (certifiedVolumeL) => {
      expect(askAboutSyringe(described({ certifiedVolumeL }))).toEqual([]);
    },
  );
  it('is asked about beyond', () => {
    expect(askAboutSyringe(described({ certifiedVolumeL: '3.1' }))).toEqual([
      'The certificate says 3.10 L, +3.3 % of the nominal 3.00 L. A syringe is held to ±0.5 % (ATS laboratory manual, 3rd ed.). Are both right?',
    ]);
  });
  it('is not asked about again while neither volume changes', () => {
    const odd = described({ certifiedVolumeL: '3.1' });
    expect(askAboutSyringe({ ...odd, label: 'Another name' }, odd)).toEqual([]);
    expect(askAboutSyringe({ ...odd, volumeL: 2 }, odd)).toHaveLength(1);
  });
});

describe('a large dead space', () => {
  it('is asked about above 300 mL, once', () => {
    expect(askAboutSyringe(described({ deadSpaceMl: '300' }))).toEqual([]);
    const large = described({ deadSpaceMl: '301' });
    expect(askAboutSyringe(large)).toEqual([
      'A dead space of 301 mL is large: 50 to 150 mL is common. Is it right?',
    ]);
    expect(askAboutSyringe({ ...large, label: 'Another name' }, large)).toEqual([]);
  });
});

describe('hoses and filters', () => {
  it('are read in mL, and a row left blank is none', () => {
    const attachments = [row('Filter', '55'), row(' ', '', 'blank'), row(' Hose ', '120.5')];
    expect(described({ attachments }).attachments).toEqual([
      { name: 'Filter', volumeL: 0.055 },
      { name: 'Hose', volumeL: 0.1205 },
    ]);
    expect('attachments' in described({ attachments: [row('', '')] })).toBe(false);
  });

  it('are typed again as they were read', () => {
    const { attachments } = syringeDraftOf(described({ attachments: [row('Hose', '120.5')] }));
    expect(attachments).toEqual([{ key: 'attachment 0', name: 'Hose', volumeMl: '120.5' }]);
  });

  it.each([
    ['no name', row('', '55'), { name: 'Name it, for example “Hose” or “Filter”.' }],
    ['no volume', row('Filter', ''), { volumeMl: 'Type the volume that it holds, in mL.' }],
    ['litres', row('Filter', '0.055'), { volumeMl: '0.055 mL is next to nothing. Was 55 mL meant?' }],
  ])('with %s stop the form, beside the field', (_what, wrong, expected) => {
    expect(Object.keys(errorsOf({ attachments: [wrong] }))).toEqual(['attachments']);
    expect(readAttachment(wrong, [wrong])).toEqual({ attachment: null, ...expected });
  });

  it('of one name are refused at the second', () => {
    const rows = [row('Filter', '55', 'first'), row('filter ', '60', 'second')];
    expect(Object.keys(errorsOf({ attachments: rows }))).toEqual(['attachments']);
    expect(rows.map((one) => readAttachment(one, rows).name === undefined)).toEqual([true, false]);
  });
});

describe('the dates', () => {
  it.each(['calibrationDueOn', 'leakCheckDueOn'] as const)(
    '%s takes no year of two or five digits',
    (field) => {
      expect(Object.keys(errorsOf({ [field]: '0026-09-30' }))).toEqual([field]);
      expect(Object.keys(errorsOf({ [field]: '20260-09-30' }))).toEqual([field]);
      expect(errorsOf({ [field]: '2026-09-30' })).toEqual({});
    },
  );
});
