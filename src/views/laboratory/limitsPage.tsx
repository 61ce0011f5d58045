import { type PublishedLimits, publishedLimits2017 } from '../../core/index.ts';
import { limitsInForce } from '../judgedBy.ts';
import { limitsInWords } from '../limitWords.ts';
import { useLogbook } from '../logbookContext.tsx';
import { changedFields } from '../parts/fieldsInWords.ts';
import {
  adoptionInForce,
  adoptLimits,
  type LimitsDraft,
  limitsDraft,
  limitsWarnings,
  readLimits,
} from './adoptLimits.ts';
import { LimitsFields } from './limitsFields.tsx';
import { SetBy } from './setBy.tsx';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

/** `at`: the ISO 8601 instant that is looked at. */
export function LimitsPage({ at }: { at: string }) {
  const { logbook } = useLogbook();
  const inForce = limitsInForce(logbook, at);
  const adopted = adoptionInForce(logbook, at);
  const rows = limitsInWords(inForce);
  const known = [publishedLimits2017, ...logbook.limitEditions.map(({ body }) => body.limits)];
  return (
    <SettingPage<LimitsDraft, PublishedLimits>
      change="Adopt another edition…"
      form={{
        title: 'Adopt another edition',
        explanation:
          'Runs made from now on are judged by it. Every run made before keeps the limits of its day, and its verdict.',
        action: 'Adopt from now on',
        initial: limitsDraft(inForce),
        usual: {
          name: `the built-in edition, ${publishedLimits2017.edition}`,
          draft: limitsDraft(publishedLimits2017),
        },
        read: (draft) => readLimits(draft, known),
        fields: (props) => <LimitsFields {...props} />,
        isInForce: (value) => changedFields(rows, limitsInWords(value)).length === 0,
        warningsAbout: limitsWarnings,
        makeEntries: (value, by, reason) => adoptLimits(value, new Date().toISOString(), by, reason),
        setting: logbook.limitEditions.at(-1)?.id,
      }}
      history={settingHistory(
        logbook.limitEditions,
        limitsInWords(publishedLimits2017),
        ({ body }) => limitsInWords(body.limits),
        'Adopted',
      )}
      method="published-limits"
      rows={rows}
      standing={
        adopted ? (
          <SetBy entry={adopted} what="Adopted" />
        ) : (
          <p>The edition that this logbook comes with. Nobody has adopted another.</p>
        )
      }
      title="Published limits"
    />
  );
}
