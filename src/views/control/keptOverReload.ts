/** A control that is half typed outlives a reload and a browser that dies, as the run on the bench does. */
import { useEffect } from 'react';
import * as z from 'zod/mini';
import type { Control } from '../../journal/entries.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { investigationSchema } from '../../journal/runContent.ts';
import { dlcoUnitSchema, haemoglobinUnitSchema, pressureUnitSchema } from '../../journal/vocabulary.ts';
import type { LogbookHandle } from '../../store/openLogbook.ts';
import { useLogbook } from '../logbookContext.tsx';
import { localMinute } from '../parts/localTime.ts';
import type { ControlDraft } from './controlDraft.ts';
import { useKeptControls } from './keptControls.ts';
import { readControl } from './readControl.ts';

const inCommon = {
  analyzerId: z.string(),
  technologistId: z.string(),
  madeAt: z.string(),
  comment: z.string(),
  investigates: z.nullable(investigationSchema),
};

const levelSchema = z.object({
  isMade: z.boolean(),
  basis: z.enum(['certificate', 'computed']),
  target: z.string(),
  targetUnit: dlcoUnitSchema,
  inspiredCo: z.string(),
  inspiredTracer: z.string(),
  alveolarCo: z.string(),
  alveolarTracer: z.string(),
  targetVa: z.string(),
  targetBreathHold: z.string(),
  pressure: z.string(),
  pressureUnit: pressureUnitSchema,
  cylinderId: z.string(),
  carriedFrom: z.nullable(z.string()),
  dlco: z.string(),
  dlcoUnit: dlcoUnitSchema,
  va: z.string(),
  breathHold: z.string(),
});

/** `keptAt`, in ms: when it was typed. Null once it is recorded. */
const keptSchema = z.nullable(
  z.object({
    keptAt: z.number(),
    draft: z.discriminatedUnion('kind', [
      z.object({
        kind: z.literal('biological'),
        ...inCommon,
        subjectId: z.string(),
        dlco: z.string(),
        dlcoUnit: dlcoUnitSchema,
        va: z.string(),
        inspiredVolume: z.string(),
        haemoglobin: z.string(),
        haemoglobinUnit: haemoglobinUnitSchema,
      }),
      z.object({
        kind: z.literal('simulator'),
        ...inCommon,
        simulator: z.string(),
        low: levelSchema,
        high: levelSchema,
      }),
    ]),
  }),
);
type Kept = NonNullable<z.infer<typeof keptSchema>>;

const settingOf = (address: string) => `control-draft ${address}`;

/** A convenience: storage that fails says so when the control is recorded, not between two keys. */
const ignoreLostDraft = () => {};

/** Undefined: it is recorded, or typed at another address now. */
export function keepOverReload(
  handle: Pick<LogbookHandle, 'writeSetting'>,
  address: string,
  draft: ControlDraft | undefined,
) {
  const kept = draft === undefined ? null : { keptAt: Date.now(), draft };
  handle.writeSetting(settingOf(address), kept).catch(ignoreLostDraft);
}

/** Takes up what was typed at this address before a reload. What was typed before that arrives stays. */
export function useTakenUp(address: string): void {
  const { handle, isReading } = useLogbook();
  useEffect(() => {
    // Whether it was recorded after all, only the whole logbook says.
    if (isReading) return;
    let isStale = false;
    handle
      .readSetting(settingOf(address), keptSchema)
      .then((kept) => {
        const { drafts, keep } = useKeptControls.getState();
        const snapshot = handle.getSnapshot();
        if (isStale || kept === null || drafts.has(address) || snapshot.state !== 'ready') return;
        const draft = takenUp(kept, snapshot.logbook, Date.now());
        if (draft !== null) keep(address, draft);
      })
      .catch(ignoreLostDraft);
    return () => {
      isStale = true;
    };
  }, [handle, address, isReading]);
}

/** An empty date stands for now: after so long it stands for when it was typed. */
const isNowForMs = 10 * 60_000;

/**
 * Null where it was recorded: a browser that dies between the commit and the note that the draft is done comes back with a draft of
 * what stands in the logbook already.
 */
export function takenUp({ draft, keptAt }: Kept, logbook: Logbook, now: number): ControlDraft | null {
  const { control } = readControl(draft, { logbook, now });
  const isRecorded =
    control !== null &&
    logbook.controls.some(
      ({ entry }) => Date.parse(entry.at) >= keptAt && readingsOf(entry.body.control) === readingsOf(control),
    );
  if (isRecorded || !logbook.analyzers.has(draft.analyzerId)) return null;
  const isNow = draft.madeAt !== '' || now - keptAt < isNowForMs;
  return isNow ? draft : { ...draft, madeAt: localMinute(keptAt) };
}

const readingsOf = (control: Control): string =>
  JSON.stringify(
    control.kind === 'biological'
      ? [control.analyzerId, control.subjectId, control.reading]
      : [control.analyzerId, ...control.levels.map(({ level, reading }) => [level, reading])],
  );
