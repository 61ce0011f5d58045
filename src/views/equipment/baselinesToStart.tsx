import { Link } from 'wouter';
import { ChoiceField, choicesOf, TickField } from '../parts/field.tsx';
import { type BaselineDecision, type SyringeUser, startsBaseline } from './decideBaselines.ts';

const choices = choicesOf<BaselineDecision['because']>({
  changed: 'The syringe is different from now on',
  slip: 'Only a slip is put right: it always was so',
});

/** On which analyzers a new baseline starts with a change of the syringe they are tested with. */
export function BaselinesToStart({
  users,
  decision,
  onDecision,
}: {
  users: readonly SyringeUser[];
  decision: BaselineDecision;
  onDecision: (decision: BaselineDecision) => void;
}) {
  return (
    <>
      <ChoiceField
        choices={choices}
        hint={
          decision.because === 'slip'
            ? 'Runs recorded with the slip still hold it. Amend them, or later runs lie beside them.'
            : undefined
        }
        label="Why it changes"
        // What was ticked for the other reason does not hold for this one.
        onChoice={(because) => onDecision({ because, ticked: {} })}
        value={decision.because}
      />
      <fieldset className="stack">
        <legend>New baselines</legend>
        {users.length === 0 ? (
          <p className="quiet">No analyzer uses this syringe, or has in the last 90 days: none is needed.</p>
        ) : null}
        {users.map((user) => (
          <div key={user.analyzerId}>
            <TickField
              checked={startsBaseline(decision, user)}
              disabled={user.hasOpenFailure}
              label={`Start a new baseline on ${user.label}.`}
              onTick={(ticked) =>
                onDecision({ ...decision, ticked: { ...decision.ticked, [user.analyzerId]: ticked } })
              }
            />
            {user.hasOpenFailure ? (
              <p className="tick-note quiet small">
                Not while a failure is open on it: <Link href="/review">close it under Review</Link> first,
                then start the baseline there.
              </p>
            ) : null}
          </div>
        ))}
      </fieldset>
    </>
  );
}
