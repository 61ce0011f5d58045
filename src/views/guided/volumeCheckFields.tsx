import { useEffect, useRef } from 'react';
import { Notice } from '../parts/notice.tsx';
import { VerdictMark } from '../parts/verdictMark.tsx';
import { MeasuredField } from '../runForm/measuredField.tsx';
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
      <MeasuredField field="volumeCheck" form={form} />
      {check?.outcome ? <Outcome outcome={check.outcome} tries={guide.triesHere} /> : null}
    </div>
  );
}

/** `tries`: how often going on past a stop was tried; each leads to what it says. */
function Outcome({
  outcome: { isInside, found },
  tries,
}: {
  outcome: NonNullable<VolumeCheck['outcome']>;
  tries: number;
}) {
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (tries > 0 && !isInside) frame.current?.focus();
  }, [tries, isInside]);
  const shape = isInside ? 'pass' : 'fail';
  return (
    <div className="focus-stop" ref={frame} tabIndex={-1}>
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
              If it stays, tell the supervisor: the fault lies in volume, not in the gas. You may go on with
              the run; this reading is kept with it.
            </p>
          </>
        )}
      </Notice>
    </div>
  );
}
