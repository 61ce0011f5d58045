import { describe, expect, it } from 'vitest';
import { foldJournal } from '../../../src/journal/fold.ts';
import { consequenceOfRole } from '../../../src/views/equipment/consequences.ts';
import { draft, ids, sealChain, technologistAdded } from '../../journal/fixtures.ts';

const folded = async (role: 'technologist' | 'supervisor') =>
  foldJournal(await sealChain([draft('technologist-added', { ...technologistAdded, role })]));

describe('consequenceOfRole', () => {
  it('asks for a supervisor where somebody is made one and there is one already', async () => {
    const logbook = await folded('supervisor');
    expect(consequenceOfRole('technologist', 'supervisor', logbook)).toMatchObject({ only: 'supervisor' });
    expect(consequenceOfRole(null, 'supervisor', logbook)).toMatchObject({ only: 'supervisor' });
  });

  it('asks for nobody where a supervisor stays one, steps down, or would be the first', async () => {
    const logbook = await folded('supervisor');
    expect(consequenceOfRole('supervisor', 'supervisor', logbook)).toBeNull();
    expect(consequenceOfRole('supervisor', 'technologist', logbook)).toBeNull();
    expect(consequenceOfRole(null, 'supervisor', await folded('technologist'))).toBeNull();
  });

  it('asks for nobody where the only supervisor is retired', async () => {
    const logbook = foldJournal(
      await sealChain([
        draft('technologist-added', technologistAdded),
        draft('technologist-retired', { technologistId: ids.supervisor, reason: 'Left.' }),
      ]),
    );
    expect(consequenceOfRole(null, 'supervisor', logbook)).toBeNull();
  });
});
