/** What the address of a check asks for: `/check/:check/:about/:runId?/:as?`. */
import { notedCheckSchema } from '../../journal/bodies.ts';
import type { EntryBody, Investigation, NotedCheck } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { findingCheckSchema } from '../../journal/vocabulary.ts';
import { investigationHref, ofTheLaboratory, todayHref } from '../routes.ts';

export interface AskedCheck {
  check: NotedCheck;
  about: Pick<EntryBody<'check-done'>, 'analyzerId' | 'syringeId'>;
  /** As it stands on the equipment. */
  name: string;
  isRetired: boolean;
  investigates: Investigation | null;
  /** The address names a run that is not in this logbook: the check is noted by itself. */
  lacksRun: boolean;
}

type Asked = Partial<Record<'check' | 'about' | 'runId' | 'as', string>>;

const aboutKind: Record<NotedCheck, 'analyzer' | 'syringe' | 'laboratory'> = {
  'volume-check': 'analyzer',
  'biological-control': 'analyzer',
  linearity: 'analyzer',
  'syringe-leak': 'syringe',
  'syringe-calibration': 'syringe',
  barometer: 'laboratory',
};

/** Null where it names no check, or nothing that this check can be about. */
export function readCheckAddress(asked: Asked, logbook: Logbook): AskedCheck | null {
  const read = notedCheckSchema.safeParse(asked.check);
  if (!read.success) return null;
  const check = read.data;
  const thing = thingOf(check, asked.about ?? '', logbook);
  return thing === null ? null : { check, ...thing, ...investigationOf(asked, logbook) };
}

function thingOf(check: NotedCheck, about: string, { analyzers, syringes }: Logbook) {
  const kind = aboutKind[check];
  if (kind === 'laboratory') {
    if (about !== ofTheLaboratory) return null;
    return { about: { analyzerId: null, syringeId: null }, name: 'the laboratory', isRetired: false };
  }
  const thing = (kind === 'analyzer' ? analyzers : syringes).get(about);
  if (thing === undefined) return null;
  return {
    about: {
      analyzerId: kind === 'analyzer' ? about : null,
      syringeId: kind === 'syringe' ? about : null,
    },
    name: thing.description.label,
    isRetired: thing.retired !== null,
  };
}

function investigationOf({ runId, as }: Asked, { runs }: Logbook) {
  if (runId === undefined) return { investigates: null, lacksRun: false };
  const read = findingCheckSchema.safeParse(as);
  return read.success && runs.some(({ id }) => id === runId)
    ? { investigates: { runId, check: read.data }, lacksRun: false }
    : { investigates: null, lacksRun: true };
}

/** Where one came from: the investigation that asked for it, or Today, where the check stands with its next date. */
export function backFrom({ investigates, about }: Pick<AskedCheck, 'investigates' | 'about'>): string {
  if (investigates) return investigationHref(investigates.runId);
  return todayHref(about.analyzerId ?? ofTheLaboratory);
}
