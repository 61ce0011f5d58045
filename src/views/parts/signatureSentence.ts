import type { Logbook } from '../../journal/logbook.ts';
import type { SignatureCheck } from '../../journal/signature.ts';
import { dayAndTime } from './figures.ts';

/** What a signature is worth, as a sentence that can stand in a record. */
export function signatureSentence(
  { entry, verdict, key }: SignatureCheck,
  { technologists }: Pick<Logbook, 'technologists'>,
): string {
  const initials = (id: string | undefined) => technologists.get(id ?? '')?.initials ?? 'an unknown person';
  const author = initials(entry.by);
  switch (verdict) {
    case 'unsigned':
      return 'Not signed.';
    case 'valid':
      return `Signed by ${author}, verified${key ? `, with the key of ${dayAndTime(key.at, key.zone)}` : ''}.`;
    case 'not-valid':
      return `The signature is not one of ${author} for these words: they were changed after it was made, or it was made for others.`;
    case 'unknown-key':
      return 'Signed with a key that is not in this journal: it cannot be verified.';
    case 'another-person':
      return `Signed with the key of ${initials(key?.body.technologistId)}, not of ${author}.`;
    case 'key-later':
      return `Signed with a key that ${author} registered only afterwards.`;
    case 'key-replaced':
      return `Signed with an old key, which ${author} had replaced by then.`;
  }
}
