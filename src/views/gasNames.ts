/** The gases of a test gas and of its analyzers, by name and by formula. */
import type { Gas } from '../journal/entries.ts';

export const gasWords: Record<Gas, string> = {
  CO: 'Carbon monoxide (CO)',
  CH4: 'Methane (CH₄)',
  He: 'Helium (He)',
  Ne: 'Neon (Ne)',
  C2H2: 'Acetylene (C₂H₂)',
  O2: 'Oxygen (O₂)',
  N2: 'Nitrogen (N₂)',
};

/** Where the names would be too long. */
export const gasFormulas: Record<Gas, string> = {
  CO: 'CO',
  CH4: 'CH₄',
  He: 'He',
  Ne: 'Ne',
  C2H2: 'C₂H₂',
  O2: 'O₂',
  N2: 'N₂',
};
