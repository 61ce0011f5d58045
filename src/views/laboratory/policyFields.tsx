import { ruleIds } from '../../core/index.ts';
import { ChoiceField, choicesOf, InputField, TickField } from '../parts/field.tsx';
import type { FieldsProps } from '../parts/formReading.ts';
import { ruleWords } from '../parts/words.ts';
import { limitsKindWords, severityWords } from '../policyWords.ts';
import type { PolicyDraft } from './setPolicy.ts';

export function PolicyFields({ draft, errors, onChange }: FieldsProps<PolicyDraft>) {
  return (
    <>
      <fieldset className="stack group">
        <legend>Own limits</legend>
        <ChoiceField
          choices={choicesOf(limitsKindWords)}
          hint={
            draft.limits === 'rolling'
              ? 'A rolling mean follows a slow drift and can swallow it: keep EWMA or CUSUM on.'
              : undefined
          }
          label="Made from"
          onChoice={(limits) => onChange({ limits })}
          value={draft.limits}
        />
        <InputField
          after={<span className="unit">runs</span>}
          error={errors.baselineSize}
          inputMode="decimal"
          label={draft.limits === 'baseline' ? 'Frozen at' : 'The newest'}
          onText={(baselineSize) => onChange({ baselineSize })}
          value={draft.baselineSize}
        />
        <InputField
          after={<span className="unit">runs on</span>}
          error={errors.minimumSize}
          hint="Until then only the published limits judge."
          inputMode="decimal"
          label="Judge from"
          onText={(minimumSize) => onChange({ minimumSize })}
          value={draft.minimumSize}
        />
        <TickField
          checked={draft.smallSample}
          label="Widen 2 and 3 SD while they rest on few runs, so that good runs alarm no more often than promised"
          onTick={(smallSample) => onChange({ smallSample })}
        />
      </fieldset>
      <fieldset className="stack group">
        <legend>Rules</legend>
        {ruleIds.map((rule) => (
          <ChoiceField
            choices={choicesOf(severityWords)}
            hint={`${ruleWords[rule]}.`}
            key={rule}
            label={rule}
            onChoice={(severity) => onChange({ severity: { ...draft.severity, [rule]: severity } })}
            value={draft.severity[rule]}
          />
        ))}
      </fieldset>
      <fieldset className="stack group">
        <legend>EWMA and CUSUM</legend>
        <InputField
          error={errors.ewmaLambda}
          hint="How much the newest run counts: 1 looks at it alone."
          inputMode="decimal"
          label="EWMA weight λ"
          onText={(ewmaLambda) => onChange({ ewmaLambda })}
          value={draft.ewmaLambda}
        />
        <InputField
          after={<span className="unit">SD of the average</span>}
          error={errors.ewmaLimit}
          inputMode="decimal"
          label="EWMA limit L"
          onText={(ewmaLimit) => onChange({ ewmaLimit })}
          value={draft.ewmaLimit}
        />
        <InputField
          after={<span className="unit">SD</span>}
          error={errors.cusumSlack}
          hint="What each run may be off without counting."
          inputMode="decimal"
          label="CUSUM slack k"
          onText={(cusumSlack) => onChange({ cusumSlack })}
          value={draft.cusumSlack}
        />
        <InputField
          after={<span className="unit">SD</span>}
          error={errors.cusumDecision}
          inputMode="decimal"
          label="CUSUM limit h"
          onText={(cusumDecision) => onChange({ cusumDecision })}
          value={draft.cusumDecision}
        />
      </fieldset>
    </>
  );
}
