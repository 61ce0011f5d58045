/** The figures of a volume calibration check: three strokes of the syringe against what each should read. Pure. */
import {
  publishedVolumeCalibration,
  type VolumeCalibration,
  volumeCalibrationCheck,
} from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import { type NumberSpec, readNumber } from '../parts/readNumber.ts';
import { type FlowName, flowNames, type VolumeDraft } from './checkDraft.ts';
import { type FiguresRead, isBlank, wrongMessage } from './readFigures.ts';

export interface VolumeErrors {
  expected?: string;
  readings: Partial<Record<FlowName, string>>;
  flows: Partial<Record<FlowName, string>>;
}

export interface JudgedVolume {
  calibration: VolumeCalibration;
  limitFraction: number;
  /** By flow: how far off, as a fraction, and whether that is within. */
  byFlow: Partial<Record<FlowName, VolumeCalibration['readings'][number]>>;
  /** How many of the flows of the published check are not read. */
  missing: number;
}

type Volume = NonNullable<EntryBody<'check-done'>['volume']>;

/** What a calibration syringe can hold, read as drawn or in BTPS. */
const readingSpec: NumberSpec = { name: 'reading', unit: 'L', lowest: 0.4, highest: 13, example: '3.02' };
const expectedSpec: NumberSpec = { ...readingSpec, name: 'expected volume', example: '3.00' };
/** Of a hand on a syringe: common practice, no source. */
const flowSpec: NumberSpec = { name: 'flow', unit: 'L/s', lowest: 0.1, highest: 16, example: '0.5' };

export function readVolume(
  draft: VolumeDraft,
  limitFraction: number,
): FiguresRead<Volume, JudgedVolume, VolumeErrors> {
  const errors: VolumeErrors = { readings: {}, flows: {} };
  const isUntouched = flowNames.every((name) => isBlank(draft.readings[name]) && isBlank(draft.flows[name]));
  if (isUntouched) return { figures: null, judged: null, errors, isWhole: true };
  const strokes: { name: FlowName; readL: number; flowLPerS: number | null }[] = [];
  for (const name of flowNames) {
    const reading = readNumber(draft.readings[name], readingSpec);
    const flow = readNumber(draft.flows[name], flowSpec);
    set(errors.readings, name, wrongMessage(reading));
    set(errors.flows, name, wrongMessage(flow));
    if (reading.state === 'empty' && flow.state === 'number') {
      errors.readings[name] = 'Type what was read at this flow, or empty the flow.';
    }
    if (reading.state === 'number') {
      strokes.push({ name, readL: reading.value, flowLPerS: flow.state === 'number' ? flow.value : null });
    }
  }
  // The journal keeps a flow for every reading, or for none.
  if (strokes.some(({ flowLPerS }) => flowLPerS !== null)) {
    for (const { name, flowLPerS } of strokes) {
      if (flowLPerS === null) errors.flows[name] ??= 'Type this flow too, or leave out all of them.';
    }
  }
  const expected = readNumber(draft.expected, expectedSpec);
  if (expected.state === 'wrong') errors.expected = expected.message;
  if (expected.state === 'empty') errors.expected = 'Type the volume that should be read.';
  const isWhole =
    errors.expected === undefined && isEmpty(errors.readings) && isEmpty(errors.flows) && strokes.length > 0;
  if (expected.state !== 'number' || strokes.length === 0) {
    return { figures: null, judged: null, errors, isWhole };
  }
  const readL = strokes.map((stroke) => stroke.readL);
  const calibration = volumeCalibrationCheck({ readL, expectedL: expected.value, limitFraction });
  const flows = strokes.flatMap(({ flowLPerS }) => (flowLPerS === null ? [] : [flowLPerS]));
  return {
    figures: isWhole
      ? {
          expectedL: expected.value,
          readL,
          limitFraction,
          ...(flows.length > 0 && { flowLPerS: flows }),
        }
      : null,
    judged: {
      calibration,
      limitFraction,
      byFlow: Object.fromEntries(strokes.map(({ name }, index) => [name, calibration.readings[index]])),
      missing: publishedVolumeCalibration.flows - strokes.length,
    },
    errors,
    isWhole,
  };
}

const isEmpty = (problems: object) => Object.keys(problems).length === 0;

function set(problems: Partial<Record<FlowName, string>>, name: FlowName, message: string | undefined): void {
  if (message !== undefined) problems[name] = message;
}
