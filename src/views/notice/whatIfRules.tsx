import { Link } from 'wouter';
import { type ControlPolicy, type RuleId, type RuleSeverity, ruleIds, severityOf } from '../../core/index.ts';
import { ChoiceField, choicesOf, InlineChoice, InputField, plainChoices } from '../parts/field.tsx';
import { plain } from '../parts/figures.ts';
import { ruleWords } from '../parts/words.ts';
import { policyPath } from '../routes.ts';
import type { RuleNumber } from '../ruleNumbers.ts';
import type { Counting } from './questions.ts';
import { type WhatIf, type WhatIfReading, whatIfOf } from './whatIf.ts';

const countingWords: Record<Counting, string> = {
  signal: 'a warning or a failed run',
  failure: 'a failed run alone',
};

const severities = plainChoices<RuleSeverity>(['action', 'warning', 'off']);

/** The left page: the rules in force, and beside each what it would be. Nothing of it is saved. */
export function WhatIfRules({
  analyzerId,
  inForce,
  draft,
  reading,
  counting,
  onDraft,
  onCounting,
}: {
  analyzerId: string;
  inForce: ControlPolicy;
  draft: WhatIf;
  reading: WhatIfReading;
  counting: Counting;
  onDraft: (draft: WhatIf) => void;
  onCounting: (counting: Counting) => void;
}) {
  const isTried = reading.policy !== null || Object.keys(reading.errors).length > 0;
  const set = (rule: RuleId, severity: RuleSeverity) =>
    onDraft({ ...draft, severity: { ...draft.severity, [rule]: severity } });
  return (
    <section className="stack group">
      <h2>Change a rule and see it move</h2>
      <p className="quiet">
        Tried on this page alone: nothing is saved and no run is judged by it. What proves itself is set under{' '}
        <Link href={policyPath(analyzerId)}>Laboratory, policy</Link>.
      </p>
      <ChoiceField
        choices={choicesOf(countingWords)}
        label="Counts as noticed"
        onChoice={onCounting}
        value={counting}
      />
      <table className="what-if">
        <thead>
          <tr>
            <th scope="col">Rule</th>
            <th scope="col">In force</th>
            <th scope="col">What if</th>
          </tr>
        </thead>
        <tbody>
          {ruleIds.map((rule) => (
            <RuleRow
              inForce={severityOf(rule, inForce)}
              key={rule}
              onSeverity={(severity) => set(rule, severity)}
              rule={rule}
              whatIf={draft.severity[rule] ?? severityOf(rule, inForce)}
            />
          ))}
        </tbody>
      </table>
      <div className="pairs">
        <NumberField
          {...{ draft, onDraft, reading }}
          field="ewmaLambda"
          inForce={inForce.ewma.lambda}
          label="EWMA weight λ"
        />
        <NumberField
          {...{ draft, onDraft, reading }}
          field="ewmaLimit"
          inForce={inForce.ewma.limit}
          label="EWMA limit L"
        />
        <NumberField
          {...{ draft, onDraft, reading }}
          field="cusumSlack"
          inForce={inForce.cusum.slack}
          label="CUSUM slack k"
        />
        <NumberField
          {...{ draft, onDraft, reading }}
          field="cusumDecision"
          inForce={inForce.cusum.decision}
          label="CUSUM limit h"
        />
      </div>
      <div className="line">
        <button disabled={!isTried} onClick={() => onDraft(whatIfOf(inForce))} type="button">
          Back to the rules in force
        </button>
      </div>
    </section>
  );
}

function RuleRow({
  rule,
  inForce,
  whatIf,
  onSeverity,
}: {
  rule: RuleId;
  inForce: RuleSeverity;
  whatIf: RuleSeverity;
  onSeverity: (severity: RuleSeverity) => void;
}) {
  return (
    <tr data-changed={inForce === whatIf ? undefined : true}>
      <th scope="row">
        {rule} <span className="small quiet">{ruleWords[rule]}</span>
      </th>
      <td>{inForce}</td>
      <td>
        <InlineChoice choices={severities} name={`What if: ${rule}`} onChoice={onSeverity} value={whatIf} />
      </td>
    </tr>
  );
}

function NumberField({
  field,
  label,
  inForce,
  draft,
  reading,
  onDraft,
}: {
  field: RuleNumber;
  label: string;
  inForce: number;
  draft: WhatIf;
  reading: WhatIfReading;
  onDraft: (draft: WhatIf) => void;
}) {
  return (
    <InputField
      beside={`in force ${plain(inForce)}`}
      error={reading.errors[field]}
      inputMode="decimal"
      label={label}
      onText={(text) => onDraft({ ...draft, [field]: text })}
      value={draft[field]}
    />
  );
}
