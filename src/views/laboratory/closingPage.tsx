import { type ClosingRules, closingRulesOf, usualClosingRules } from '../../journal/standing.ts';
import { useLogbook } from '../logbookContext.tsx';
import { InputField, TickField } from '../parts/field.tsx';
import { changedFields } from '../parts/fieldsInWords.ts';
import type { FieldsProps } from '../parts/formReading.ts';
import { SetBy } from './setBy.tsx';
import {
  type ClosingDraft,
  closingDraft,
  closingInShort,
  closingInWords,
  closingWarnings,
  readClosing,
  setClosing,
} from './setClosing.ts';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

export function ClosingPage() {
  const { logbook } = useLogbook();
  const rules = closingRulesOf(logbook);
  const newest = logbook.closingRules.at(-1);
  const rows = closingInWords(rules);
  return (
    <SettingPage<ClosingDraft, ClosingRules>
      change="Set what a closure needs…"
      form={{
        title: 'Set what a closure needs',
        explanation:
          'Failures that are open are closed by it from now on. Those that were closed before stay closed.',
        action: 'Set it from now on',
        initial: closingDraft(rules),
        usual: {
          name: `the usual: ${closingInShort(usualClosingRules)}`,
          draft: closingDraft(usualClosingRules),
        },
        read: readClosing,
        fields: (props) => <ClosingFields {...props} />,
        isInForce: (value) => changedFields(rows, closingInWords(value)).length === 0,
        warningsAbout: closingWarnings,
        makeEntries: setClosing,
        setting: newest?.id,
      }}
      history={settingHistory(
        logbook.closingRules,
        closingInWords(usualClosingRules),
        ({ body }) => closingInWords(body),
        'Set',
      )}
      method="failures"
      rows={rows}
      standing={
        newest ? (
          <SetBy entry={newest} what="Set" />
        ) : (
          <p>Nobody has set it: what is usual holds. That a run proves a repair is common practice.</p>
        )
      }
      title="What a closure needs"
    />
  );
}

function ClosingFields({ draft, errors, onChange }: FieldsProps<ClosingDraft>) {
  return (
    <>
      <InputField
        after={<span className="unit">passing</span>}
        error={errors.proofRuns}
        hint="After the last failing run and the last action."
        inputMode="decimal"
        label="Runs"
        onText={(proofRuns) => onChange({ proofRuns })}
        value={draft.proofRuns}
      />
      <TickField
        checked={draft.needsAction}
        label="The corrective action is written down."
        onTick={(needsAction) => onChange({ needsAction })}
      />
      <TickField
        checked={draft.needsLookBack}
        label="A supervisor has reviewed which patients’ results are in doubt."
        onTick={(needsLookBack) => onChange({ needsLookBack })}
      />
    </>
  );
}
