import { type MarkShape, VerdictMark } from '../parts/verdictMark.tsx';
import type { StepLine } from './closingSteps.ts';

const shapes: Record<StepLine['state'], MarkShape> = {
  done: 'pass',
  missing: 'warn',
  optional: 'establishing',
};

/** The whole way at a glance: each step with its mark and its word, and a link to where it is done. */
export function StepList({ steps }: { steps: readonly StepLine[] }) {
  return (
    <ol aria-label="From open to closed" className="closing-steps">
      {steps.map(({ id, title, state, sentence }, index) => (
        <li key={id}>
          <span aria-hidden="true" className="closing-steps__number quiet">
            {index + 1}
          </span>
          <span>{title}</span>
          <span className="badge__word small" data-shape={shapes[state]}>
            <VerdictMark shape={shapes[state]} size={14} />
            {state}
          </span>
          <span className="closing-steps__what quiet small">{sentence}</span>
        </li>
      ))}
    </ol>
  );
}
