import { useState } from 'react';
import type { Syringe } from '../../journal/logbook.ts';
import { openFailures } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { useFailures } from '../useFailures.ts';
import { BaselinesToStart } from './baselinesToStart.tsx';
import { consequenceOfSyringeChange, usersOf } from './consequences.ts';
import { type BaselineDecision, startsBaseline } from './decideBaselines.ts';
import { DescriptionForm } from './descriptionForm.tsx';
import { changeSyringe } from './makeEntries.ts';
import { syringeReader } from './readers.ts';
import { askAboutSyringe, syringeDraftOf } from './readSyringe.ts';
import { SyringeFields } from './syringeFields.tsx';

/** A change of a syringe; one of its volumes, with the new baselines that go with it. */
export function SyringeChange({ syringe, onDone }: { syringe: Syringe; onDone: () => void }) {
  const { logbook } = useLogbook();
  const [decision, setDecision] = useState<BaselineDecision>({ because: 'changed', ticked: {} });
  const failing = new Set(openFailures(useFailures()).map(({ analyzerId }) => analyzerId));
  const { id, description } = syringe;
  const users = usersOf(logbook, id, Date.now()).map((analyzer) => ({
    analyzerId: analyzer.id,
    label: analyzer.description.label,
    hasOpenFailure: failing.has(analyzer.id),
  }));
  return (
    <DescriptionForm
      Fields={SyringeFields}
      action="Save the change"
      asksReason
      consequenceOf={(changed) => {
        const consequence = consequenceOfSyringeChange(description, changed);
        if (consequence === null) return null;
        const fields = <BaselinesToStart decision={decision} onDecision={setDecision} users={users} />;
        return { ...consequence, fields };
      }}
      decided={decision}
      initial={syringeDraftOf(description)}
      makeEntries={(changed, by, reason) =>
        changeSyringe(syringe, changed, by, reason, {
          startsBaselineOn:
            consequenceOfSyringeChange(description, changed) === null
              ? []
              : users.filter((user) => startsBaseline(decision, user)).map(({ analyzerId }) => analyzerId),
          now: Date.now(),
        })
      }
      newest={syringe.history.at(-1)?.id}
      onCancel={onDone}
      onDone={onDone}
      questionsAbout={(changed) => askAboutSyringe(changed, description)}
      read={syringeReader(logbook, syringe)}
      title={`Change ${description.label}`}
    />
  );
}
