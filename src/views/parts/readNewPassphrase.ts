/** NIST SP 800-63B (2017), section 5.1.1.2: at least eight characters, and no rule on which (from memory). */
export const shortestPassphrase = 8;

export interface NewPassphraseErrors {
  chosen?: string;
  again?: string;
  reason?: string;
}

export type NewPassphraseReading =
  | { ok: true; passphrase: string; reason: string }
  | { ok: false; errors: NewPassphraseErrors };

/** `reason`: null where none is asked for. The passphrase is taken as typed, spaces included. */
export function readNewPassphrase({
  chosen,
  again,
  reason,
}: {
  chosen: string;
  again: string;
  reason: string | null;
}): NewPassphraseReading {
  const errors: NewPassphraseErrors = {};
  // By letters, not by the halves that some of them are stored in.
  const length = [...chosen.normalize('NFKC')].length;
  if (chosen === '') errors.chosen = `Choose a passphrase of ${shortestPassphrase} characters or more.`;
  else if (length < shortestPassphrase)
    errors.chosen = `This has ${length}. Choose ${shortestPassphrase} characters or more.`;
  else if (again === '') errors.again = 'Type it a second time, against a slip.';
  else if (again !== chosen) errors.again = 'The two differ. Type the same passphrase twice.';
  if (reason?.trim() === '')
    errors.reason = 'Say why a new one is needed: the old one was forgotten, for example.';
  return Object.keys(errors).length > 0
    ? { ok: false, errors }
    : { ok: true, passphrase: chosen, reason: reason?.trim() ?? '' };
}
