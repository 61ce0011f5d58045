import { FigureList } from '../parts/figureList.tsx';
import { day } from '../parts/figures.ts';
import { VerdictMark } from '../parts/verdictMark.tsx';
import type { Epoch } from './baselineRuns.ts';
import type { BaselineWords } from './describeBaseline.ts';

/** Mean, SD and how well they are known, and what is to be looked at before they are trusted. */
export function WhatItRestsOn({ inForce: { start, runs }, words }: { inForce: Epoch; words: BaselineWords }) {
  return (
    <section className="stack">
      <h2>In force</h2>
      <p className="quiet">
        {start === null
          ? 'Since the first run.'
          : `Since ${day(start.body.from, start.zone)}: ${start.body.reason}`}
      </p>
      {runs.length === 0 ? (
        <p>No run was made since. The first ones make the new baseline; until then published limits judge.</p>
      ) : (
        <>
          <FigureList rows={words.figures} />
          <ul className="hint-list">
            {words.hints.map(({ name, sentence, isWarning }) => (
              <li key={name}>
                <span data-shape={isWarning ? 'warn' : 'pass'}>
                  <VerdictMark shape={isWarning ? 'warn' : 'pass'} size={14} />
                </span>
                <span>
                  <strong>{name}.</strong>{' '}
                  {isWarning ? <span className="for-readers">Look at this: </span> : null}
                  {sentence}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
