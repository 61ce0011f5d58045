import type { ComponentProps } from 'react';
import { SaveLine } from '../parts/saveLine.tsx';
import { Questions } from '../runForm/questions.tsx';

/** The foot of a form that may have something to ask first: the questions in place of its button. */
export function AskOrSave({
  asking,
  onYes,
  onBack,
  ...saveLine
}: {
  asking: readonly string[];
  onYes: () => void;
  onBack: () => void;
} & ComponentProps<typeof SaveLine>) {
  if (asking.length === 0) return <SaveLine {...saveLine} />;
  return (
    <Questions
      asking={asking}
      onBack={onBack}
      onYes={onYes}
      title="Before this is written"
      yes={`Yes: ${saveLine.action.toLowerCase()}`}
    />
  );
}
