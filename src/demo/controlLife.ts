/** The controls of one invented analyzer, week by week: persons before its runs, the simulator after those of everybody. */
import {
  dlcoFromMlMinMmHg,
  publishedCheckLimits,
  type SimulatorLevel,
  type SingleBreathInput,
  simulatorTarget,
} from '../core/index.ts';
import { withoutBinaryNoise } from '../journal/binaryNoise.ts';
import type { BiologicalContent, SimulatorContent } from '../journal/entries.ts';
import { type Action, atTheBench, iso, minute, type Setting } from './actions.ts';
import { deviateSource } from './chance.ts';
import { type ControlLog, controlLog } from './controlLog.ts';
import { bloodGiven, countsAgain, dlcoCv, levelsApart, persons, vaCv } from './controlPlan.ts';
import { rounded } from './display.ts';
import { type AnalyzerPlan, weeks } from './plan.ts';

/** What is wrong with the analyzer on a day, as a syringe or a person meets it. */
export interface AnalyzerState {
  gain: number;
  leak: number;
  /** What CO and tracer make up between them of a syringe, in mL/min/mmHg. */
  dlcoOffset: number;
  isFaulty: boolean;
}

export interface ControlSurroundings extends Setting {
  analyzerId: string;
  personIds: readonly string[];
  /** A stream of its own. */
  controlUniform: () => number;
}

/** A test begins so long before the run, and the simulator stands by at this minute after seven. */
const testBefore = 12 * minute;
const sessionMinute = 214;
/** VA that a syringe has in BTPS: an offset grows with VA. */
const syringeVaL = 3.35;
/** SD of a level's reading, in mL/min/mmHg. */
const levelSd = 0.5;

/** What the simulator delivers: mixed gases whose content is known, and the breath that stands for them. */
const levels: Readonly<Record<SimulatorLevel, SingleBreathInput>> = {
  low: {
    vaBtpsL: 5,
    breathHoldS: 10,
    barometricMmHg: 760,
    inspired: { co: 0.003, tracer: 0.003 },
    alveolar: { co: 0.00156, tracer: 0.0024 },
  },
  high: {
    vaBtpsL: 5,
    breathHoldS: 10,
    barometricMmHg: 760,
    inspired: { co: 0.003, tracer: 0.003 },
    alveolar: { co: 0.00105, tracer: 0.0024 },
  },
};

export function controlLife(
  plan: Pick<AnalyzerPlan, 'controls' | 'minuteOfVisit' | 'description'>,
  surroundings: ControlSurroundings,
  judging: Parameters<typeof controlLog>[2],
) {
  const { calendar, analyzerId, personIds, supervisorId, newId, controlUniform } = surroundings;
  const { controls, description } = plan;
  const log: ControlLog = controlLog(analyzerId, newId, judging);
  const drawn = deviateSource(weeks, controlUniform);
  const levelsDrawn = deviateSource(weeks, controlUniform);
  const furtherTests = deviateSource(16, controlUniform);
  let further = 0;
  const { dlcoUnit } = description;
  /** As the display has it. */
  const shown = (dlcoMlMinMmHg: number) =>
    rounded(dlcoFromMlMinMmHg(dlcoMlMinMmHg, dlcoUnit), dlcoUnit === 'mmol/min/kPa' ? 2 : 1);
  const common = (at: number, week: number, comment: string) => ({
    madeAt: iso(at),
    analyzerId,
    technologistId: atTheBench(surroundings, week),
    comment,
  });

  function testOf(
    week: number,
    state: AnalyzerState,
    chance = controls.deviates.get(week) ?? drawn(week),
  ): { content: BiologicalContent; isExcluded: boolean } | null {
    const row = controls.tests.find(({ fromWeek, untilWeek }) => week >= fromWeek && week <= untilWeek);
    if (row === undefined) return null;
    const person = persons[row.person];
    const measured = person.haemoglobinIn.get(week);
    const { dlco: dlcoDeviate, va: vaDeviate } = chance;
    const vaL = (person.vaL * (1 + vaCv * vaDeviate) * (1 + state.gain)) / (1 - state.leak);
    const uptake =
      person.dlcoMlMinMmHg *
      (1 + dlcoCv * dlcoDeviate) *
      (vaL / person.vaL / (1 + vaCv * vaDeviate)) *
      (carrying(measured ?? person.haemoglobin) / carrying(person.haemoglobin));
    const { biological, edition } = publishedCheckLimits;
    const { fraction, dlcoMlMinMmHg, cv, source } = biological;
    const isPlanned = week === bloodGiven && row.person === 1;
    const at = calendar.at(calendar.runDay(week), plan.minuteOfVisit) - testBefore;
    const content: BiologicalContent = {
      kind: 'biological',
      ...common(at, week, isPlanned ? 'Haemoglobin is lower than usual.' : ''),
      subjectId: personIds[row.person] ?? '',
      reading: {
        dlco: shown(uptake + (state.dlcoOffset * vaL) / syringeVaL),
        dlcoUnit,
        vaL: rounded(vaL, 2),
      },
      ...(measured === undefined ? {} : { haemoglobin: { value: measured, unit: 'g/dL' as const } }),
      limits: { edition, source, fraction, dlcoMlMinMmHg, cv },
    };
    return { content, isExcluded: row.person === 1 && week > bloodGiven && week < countsAgain };
  }

  /** Before the run of the week. */
  function test(week: number, state: AnalyzerState): void {
    const made = testOf(week, state);
    if (made === null) return;
    const { content, isExcluded } = made;
    if (controls.leakyMouthpiece === week) {
      const { reading } = content;
      const at = Date.parse(content.madeAt) - 7 * minute;
      const vaL = rounded(reading.vaL - 0.9, 2);
      const dlco = rounded((reading.dlco * vaL) / reading.vaL, 1);
      log.record({ ...content, madeAt: iso(at), reading: { ...reading, vaL, dlco } });
      log.strikeOut(at + 4 * minute, content.technologistId, 'The mouthpiece leaked, as the person says.');
    }
    const judged = log.record(content, isExcluded);
    if (judged.word !== 'fail' || isExcluded || state.isFaulty) return;
    if (week !== bloodGiven) {
      repeat(week, content, state);
      return;
    }
    // On both analyzers on the same morning: the person.
    log.close(calendar.at(calendar.runDay(week), 222), supervisorId, {
      cause: 'The person: haemoglobin 10.0 g/dL, and low on both analyzers of that morning.',
      correctiveAction: 'Left out of the means until haemoglobin is as usual.',
      lookBack: 'The simulations of that morning passed: no patient’s result is in doubt.',
    });
  }

  /** By chance, as far as anybody knows. */
  function repeat(week: number, { madeAt }: BiologicalContent, state: AnalyzerState): void {
    const again = testOf(week, state, furtherTests(further++));
    if (again === null) return;
    const at = Date.parse(madeAt) + 4 * 60 * minute;
    log.record({ ...again.content, madeAt: iso(at), comment: 'Repeated after an hour of rest.' });
    log.close(at + 10 * minute, supervisorId, {
      cause: 'None found: the simulation of that morning passed.',
      correctiveAction: 'Test repeated.',
      lookBack: 'The simulations before and after passed: no patient’s result is in doubt.',
    });
  }

  function sessionOf(week: number, at: number, comment: string, state: AnalyzerState, isRepeated: boolean) {
    const { simulator, edition } = publishedCheckLimits;
    const { va, dlco } = levelsDrawn(isRepeated ? week + 1 : week);
    const deviates = (isRepeated ? undefined : controls.levelDeviates.get(week)) ?? { low: va, high: dlco };
    const content: SimulatorContent = {
      kind: 'simulator',
      ...common(at, week, comment),
      simulator: 'Two-level simulator',
      levels: (['low', 'high'] as const).map((level) => {
        const { vaBtpsL, breathHoldS, barometricMmHg, inspired, alveolar } = levels[level];
        const targetMlMinMmHg = withoutBinaryNoise(simulatorTarget(levels[level]));
        const read =
          targetMlMinMmHg / (1 - state.leak) +
          (state.dlcoOffset * vaBtpsL) / syringeVaL +
          levelSd * deviates[level];
        return {
          level,
          targetMlMinMmHg,
          basis: { kind: 'computed', inspired, alveolar, vaBtpsL, breathHoldS, barometricMmHg },
          reading: { dlco: shown(read), dlcoUnit },
        };
      }),
      limits: { edition, source: simulator.source, dlcoMlMinMmHg: simulator.dlcoMlMinMmHg },
    };
    return content;
  }

  /** After the runs of the day. */
  function session(week: number, state: AnalyzerState): void {
    if (!controls.sessions.includes(week)) return;
    const at = calendar.at(calendar.runDay(week), sessionMinute);
    const judged = log.record(sessionOf(week, at, '', state, false));
    if (judged.word !== 'fail' || week !== levelsApart) return;
    log.record(sessionOf(week, at + 12 * minute, 'Both cylinders opened fully.', state, true));
    log.close(at + 20 * minute, supervisorId, {
      cause: 'The valve of one cylinder was not fully open: the levels lay apart in opposite directions.',
      correctiveAction: 'Both cylinders opened fully and the session repeated.',
      lookBack: 'Nothing of it is used for patients.',
    });
  }

  return { actions: log.actions as readonly Action[], test, session, forget: log.forget };
}

/**
 * How uptake rises with haemoglobin (g/dL), but for a constant.
 * Source: Cotes' correction, as in the ERS/ATS 2017 standard; from memory.
 */
const carrying = (haemoglobin: number) => (1.7 * haemoglobin) / (9.38 + haemoglobin);
