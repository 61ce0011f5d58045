import { type CheckLimits, publishedCheckLimits } from '../../core/index.ts';
import { checkLimitsInWords, limitedCheckIds, limitedChecks, limitInWords } from '../checkLimitWords.ts';
import { checkLimitsAt } from '../controlAssessments.ts';
import { useLogbook } from '../logbookContext.tsx';
import { changedFields } from '../parts/fieldsInWords.ts';
import {
  adoptCheckLimits,
  type CheckLimitsDraft,
  checkAdoptionInForce,
  checkLimitsDraft,
  checkLimitsWarnings,
  readCheckLimits,
} from './adoptCheckLimits.ts';
import { CheckLimitsFields } from './checkLimitsFields.tsx';
import { SetBy } from './setBy.tsx';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

/** `at`: the ISO 8601 instant that is looked at. */
export function CheckLimitsPage({ at }: { at: string }) {
  const { logbook } = useLogbook();
  const inForce = checkLimitsAt(logbook, at);
  const adopted = checkAdoptionInForce(logbook, at);
  const words = checkLimitsInWords(inForce);
  const known = [publishedCheckLimits, ...logbook.checkLimitEditions.map(({ body }) => body.limits)];
  return (
    <SettingPage<CheckLimitsDraft, CheckLimits>
      change="Adopt other limits…"
      form={{
        title: 'Adopt other limits of the checks',
        explanation:
          'Checks and controls made from now on are judged by them. All that was made before keeps the limits of its day, and its verdict.',
        action: 'Adopt from now on',
        initial: checkLimitsDraft(inForce),
        usual: {
          name: `the built-in limits, ${publishedCheckLimits.edition}`,
          draft: checkLimitsDraft(publishedCheckLimits),
        },
        read: (draft) => readCheckLimits(draft, known),
        fields: (props) => <CheckLimitsFields {...props} />,
        isInForce: (value) => changedFields(words, checkLimitsInWords(value)).length === 0,
        warningsAbout: checkLimitsWarnings,
        makeEntries: (value, by, reason) => adoptCheckLimits(value, new Date().toISOString(), by, reason),
        setting: logbook.checkLimitEditions.at(-1)?.id,
      }}
      history={settingHistory(
        logbook.checkLimitEditions,
        checkLimitsInWords(publishedCheckLimits),
        ({ body }) => checkLimitsInWords(body.limits),
        'Adopted',
      )}
      method="check-limits"
      rows={[
        { name: 'Edition', value: inForce.edition },
        ...limitedCheckIds.map((check) => ({
          name: limitedChecks[check],
          value: (
            <>
              <p>{limitInWords(check, inForce)}</p>
              <p className="quiet small">{inForce[check].source}</p>
            </>
          ),
        })),
      ]}
      standing={
        adopted ? (
          <SetBy entry={adopted} what="Adopted" />
        ) : (
          <p>The limits that this logbook comes with. Nobody has adopted others.</p>
        )
      }
      title="Limits of the other checks"
    />
  );
}
