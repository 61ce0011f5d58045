import { InputField } from '../parts/field.tsx';
import { levels, type SimulatorDraft } from './controlDraft.ts';
import { AnalyzerChoice, Comment, MadeAt, Technologist } from './controlField.tsx';
import { LevelFields } from './levelFields.tsx';
import type { ControlForm } from './useControlForm.ts';

/** A session with a precision-gas simulator: one level or two. */
export function SimulatorFields({ form, draft }: { form: ControlForm; draft: SimulatorDraft }) {
  return (
    <>
      <fieldset className="stack">
        <legend className="for-readers">Analyzer, person and simulator</legend>
        <div className="pairs">
          <AnalyzerChoice form={form} />
          <Technologist form={form} />
          <MadeAt form={form} />
          <InputField
            hint="What the laboratory calls it."
            label="Simulator"
            onText={(simulator) => form.change({ simulator })}
            type="text"
            value={draft.simulator}
          />
        </div>
      </fieldset>
      {levels.map((name) => (
        <LevelFields draft={draft} form={form} key={name} name={name} />
      ))}
      <Comment form={form} />
    </>
  );
}
