import { describe, expect, it } from 'vitest';
import { publishedLimits2017 } from '../../../src/core/index.ts';
import { buildGoOn } from '../../../src/views/guided/buildGoOn.ts';
import { buildSoFar } from '../../../src/views/guided/buildSoFar.ts';
import { buildSteps } from '../../../src/views/guided/buildSteps.ts';
import { buildStillOpen } from '../../../src/views/guided/buildStillOpen.ts';
import {
  numberOf,
  type StepId,
  stepAfter,
  stepBefore,
  stepIds,
  stepOfField,
  troublesOf,
} from '../../../src/views/guided/guideSteps.ts';
import { notHeld, startedHold } from '../../../src/views/guided/hold.ts';
import { type BenchDraft, emptyDraft } from '../../../src/views/runForm/benchDraft.ts';
import { filled, laboratoryWith, read } from '../runForm/drafts.ts';

type Laboratory = Parameters<typeof laboratoryWith>[0];

async function stepsFor(changes: Partial<BenchDraft> = {}, laboratory: Laboratory = {}) {
  const logbook = await laboratoryWith(laboratory);
  return buildSteps({ ...filled, ...changes }, logbook, publishedLimits2017);
}

async function textOf(id: StepId, changes: Partial<BenchDraft> = {}, laboratory: Laboratory = {}) {
  const step = (await stepsFor(changes, laboratory)).find((one) => one.id === id);
  if (!step) throw new Error(`no step ${id}`);
  return [step.heading, ...step.say, ...step.cautions, step.goOn].join('\n');
}

describe('buildSteps', () => {
  it('has every step in its order, each with a heading, a caution and a word for going on', async () => {
    const steps = await stepsFor();
    expect(steps.map(({ id }) => id)).toEqual(stepIds);
    for (const { heading, cautions, goOn } of steps) {
      expect(heading).not.toBe('');
      expect(cautions.length).toBeGreaterThan(0);
      expect(goOn).not.toBe('');
    }
  });

  it('names the analyzer and the syringe in hand, and does without while there are none', async () => {
    expect(await textOf('syringe')).toContain('Attach Dedicated 3 L syringe to Room 2');
    expect(await textOf('syringe', emptyDraft)).toContain('Attach the syringe to the analyzer');
  });

  it('warns of carbon monoxide and of the cylinder before the syringe is attached', async () => {
    expect(await textOf('syringe')).toMatch(
      /carbon monoxide: ventilate[\s\S]*compressed-gas cylinder: secure it/,
    );
  });

  it('starts with the plunger home, or with as much air inside as the analyzer is described with', async () => {
    expect(await textOf('start')).toMatch(/Plunger home[\s\S]*against its stop/);
    expect(await textOf('inhale')).toContain('3.00 L without a halt');
    const oneInside = { analyzer: { volumeInsideL: 1 } };
    expect(await textOf('syringe', {}, oneInside)).toContain('1.00 L comes later, at step 5');
    expect(await textOf('start', {}, oneInside)).toMatch(/Set the plunger at 1\.00 L[\s\S]*1\.00 L mark/);
    expect(await textOf('start', {}, oneInside)).not.toContain('Plunger home');
    expect(await textOf('inhale', {}, oneInside)).toContain('2.00 L without a halt');
  });

  it('follows the route: as for a patient, or the analyzer’s own routine with what the standard asks', async () => {
    expect(await textOf('start')).toContain('as for a patient');
    expect(await textOf('start')).not.toContain('published standard');
    const builtIn = await textOf('start', { route: 'built-in' });
    expect(builtIn).toContain('its own syringe routine');
    expect(builtIn).toContain('The published standard asks for the patient test.');
  });

  it('waits for the sample bag of an analyzer that has one', async () => {
    expect(await textOf('exhale')).not.toContain('bag');
    expect(await textOf('exhale', {}, { analyzer: { gasAnalysis: 'sample-bag' } })).toContain(
      'its sample bag',
    );
  });

  it('names the breath-hold of the limits in force', async () => {
    expect(await textOf('hold')).toMatch(
      /Hold still for 10 s[\s\S]*8 to 12 s are in order \(ERS\/ATS 2017\)/,
    );
  });
});

describe('guideSteps', () => {
  it('goes from each step to the next and back, and ends at both ends', () => {
    expect(stepAfter('inhale')).toBe('hold');
    expect(stepBefore('hold')).toBe('inhale');
    expect(stepBefore('set-up')).toBeNull();
    expect(stepAfter('verdict')).toBe('verdict');
    expect(numberOf('volume-check')).toBe(4);
  });

  it('keeps a person on a step only for what is typed there', async () => {
    const logbook = await laboratoryWith({});
    const reading = read(
      { technologistId: '', temperature: '72', va: '', volumeCheck: '33', humidity: '' },
      logbook,
    );
    expect(troublesOf('set-up', reading)).toEqual(['technologistId']);
    expect(troublesOf('room', reading)).toEqual(['temperature']);
    expect(troublesOf('syringe', reading)).toEqual([]);
    expect(troublesOf('volume-check', reading)).toEqual(['volumeCheck']);
    expect(troublesOf('read', reading)).toEqual(['va']);
    expect(stepOfField('madeAt')).toBeNull();
  });
});

describe('buildStillOpen', () => {
  it('lists what is missing or wrong by its step', async () => {
    const logbook = await laboratoryWith({});
    const open = buildStillOpen(
      read({ technologistId: '', temperature: '72', va: '', madeAt: 'x' }, logbook),
    );
    expect(open.map(({ what, step }) => `${step?.number ?? 'bench'}: ${what}`)).toEqual([
      '1: The technologist is missing.',
      '2: The temperature cannot be right.',
      '9: VA is missing.',
      'bench: The time cannot be right.',
    ]);
    expect(buildStillOpen(read({}, logbook))).toEqual([]);
  });
});

describe('buildSoFar', () => {
  it('lists only what is there, in the order of the steps, and marks what cannot be', async () => {
    const logbook = await laboratoryWith({});
    const rows = (changes: Partial<BenchDraft>) => {
      const draft = { ...filled, ...changes };
      return buildSoFar(draft, read(changes, logbook), logbook);
    };
    expect(buildSoFar(emptyDraft, read(emptyDraft, logbook), logbook)).toEqual([]);
    const names = rows({ va: '', dlco: '' }).map(({ name }) => name);
    expect(names).toEqual([
      'Technologist',
      'Analyzer',
      'Route',
      'Reason',
      'Syringe',
      'Temperature',
      'Pressure',
    ]);
    expect(rows({})).toContainEqual({ name: 'VA', value: '3.45 L BTPS', isWrong: false });
    expect(rows({ temperature: '72' })).toContainEqual({
      name: 'Temperature',
      value: '72 °C',
      isWrong: true,
    });
  });
});

describe('buildGoOn', () => {
  const check = { expected: '3.36', lowest: '3.26', highest: '3.46', limit: '±3 %' };
  const step = { id: 'volume-check' as const, goOn: 'On to the run' };
  it('says at the volume check whether one goes on with it, without it, or against it', () => {
    const goOn = (volumeCheck: string, isInside: boolean | null) =>
      buildGoOn(step, {
        draft: { volumeCheck },
        hold: notHeld,
        volumeCheck: { ...check, outcome: isInside === null ? null : { isInside, found: '' } },
      });
    expect(goOn('', null)).toBe('Go on without a volume check');
    expect(goOn('3.36', true)).toBe('On to the run');
    expect(goOn('3.05', false)).toBe('Go on all the same');
  });

  it('starts the timer before it goes on from the hold', () => {
    const goOn = (hold: typeof notHeld) =>
      buildGoOn(
        { id: 'hold', goOn: 'On to exhaling' },
        { draft: { volumeCheck: '' }, hold, volumeCheck: null },
      );
    expect(goOn(notHeld)).toBe('Start the timer');
    expect(goOn(startedHold(0))).toBe('On to exhaling');
  });
});
