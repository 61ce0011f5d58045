import type { Control } from '../../journal/entries.ts';
import type { LoggedControl } from '../../journal/logbook.ts';
import type { ControlAssessment } from '../controlAssessments.ts';
import { policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { FigureList } from '../parts/figureList.tsx';
import { VerdictBadge } from '../parts/verdictMark.tsx';
import '../runForm/judged.css';
import { useControlAssessments } from '../useControlAssessments.ts';
import { controlAdvice } from './controlAdvice.ts';
import { type ControlWords, describeBiological } from './describeBiological.ts';
import { describeSimulator } from './describeSimulator.ts';
import { placeOf } from './placeOf.ts';
import { testsBefore } from './readBiological.ts';

interface Judged {
  control: Control;
  assessment: ControlAssessment;
  /** Undefined while it is typed for the first time. */
  logged?: LoggedControl | undefined;
}

/** A control's verdict: the word, what to do now, and what it rests on. */
export function ControlVerdict({ control, assessment, logged }: Judged) {
  const { logbook } = useLogbook();
  const { word, establishing } = assessment.verdict;
  const place = placeOf(control, assessment, logged, logbook);
  const advice = controlAdvice({ kind: control.kind, assessment, ...place });
  return (
    <>
      <p className="verdict__word" key={word}>
        <VerdictBadge establishing={establishing} size="page" word={word} />
      </p>
      <p className="verdict__do">{advice.sentence}</p>
      {advice.next === '' ? null : <p>{advice.next}</p>}
      <ControlReasons assessment={assessment} control={control} logged={logged} />
      <p className="quiet small">
        This is advice. Local procedure, the manufacturer’s instructions and the responsible person decide
        whether patients are tested.
      </p>
    </>
  );
}

/** What was found against which limit, what may lie behind it, and the limits as figures. */
export function ControlReasons({ control, assessment, logged }: Judged) {
  const words = useControlWords(control, assessment, logged);
  return (
    <>
      <div className="verdict__found">
        {[...words.found, ...words.reasons].map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      {words.explanations.map((sentence) => (
        <p className="quiet" key={sentence}>
          {sentence}
        </p>
      ))}
      <FigureList rows={words.figures} />
    </>
  );
}

function useControlWords(
  control: Control,
  assessment: ControlAssessment,
  logged: LoggedControl | undefined,
): ControlWords {
  const { logbook } = useLogbook();
  const assessments = useControlAssessments();
  const policy = policyInForce(logbook, control);
  if (control.kind === 'simulator') {
    return 'levels' in assessment ? describeSimulator(control, assessment, policy) : nothingToSay;
  }
  if ('levels' in assessment) return nothingToSay;
  const earlier = testsBefore(logbook, control, logged?.id)
    .filter(({ at }) => at <= Date.parse(control.madeAt))
    .map((test) => ({ logged: test, assessment: assessments.biological.get(test.id) }));
  return describeBiological(control, assessment, {
    policy,
    earlier,
    ...placeOf(control, assessment, logged, logbook),
  });
}

const nothingToSay: ControlWords = { found: [], reasons: [], explanations: [], figures: [] };
