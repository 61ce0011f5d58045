import { IfKnown } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { NumberField } from '../runForm/runFields.tsx';
import type { Guide } from './useGuide.ts';
import type { VolumeCheck } from './volumeCheck.ts';

export function VolumeCheckFields({ guide }: { guide: Guide }) {
  const { form, goTo, volumeCheck: check } = guide;
  return (
    <div className="stack">
      {check === null ? (
        <Notice title="What it should read cannot be computed yet." tone="warn">
          <p>Analyzer, syringe, temperature and pressure are needed for that.</p>
          <div className="line">
            <button onClick={() => goTo('room')} type="button">
              Back to the room
            </button>
          </div>
        </Notice>
      ) : (
        <p className="guide-expected">
          In this room it should read <strong>{check.expected}</strong> <span className="unit">L BTPS</span>
          <span className="quiet">
            {' '}
            ({check.lowest} to {check.highest}: {check.limit})
          </span>
        </p>
      )}
      <NumberField
        after={<span className="unit">L BTPS</span>}
        field="volumeCheck"
        form={form}
        label={<IfKnown>Volume check</IfKnown>}
      />
      {check?.outcome ? <Outcome outcome={check.outcome} /> : null}
    </div>
  );
}

function Outcome({ outcome: { isInside, found } }: { outcome: NonNullable<VolumeCheck['outcome']> }) {
  const shape = isInside ? 'pass' : 'fail';
  return (
    <Notice
      title={
        <span className="guide-outcome" data-shape={shape}>
          <VerdictMark shape={shape} /> {found}
        </span>
      }
      tone={shape}
    >
      {isInside ? (
        <p>The volume is measured rightly: go on.</p>
      ) : (
        <>
          <p>
            Stop: look at the coupling, the hose and the filter for a leak, and at the temperature and
            pressure you typed. Then do the check again and type the new reading.
          </p>
          <p>
            If it stays, tell the supervisor: the fault lies in volume, not in the gas. You may go on with the
            run; this reading is kept with it.
          </p>
        </>
      )}
    </Notice>
  );
}
