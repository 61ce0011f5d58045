import { useState } from 'react';
import type { LoggedControl } from '../../journal/logbook.ts';
import { SavedMessage } from '../parts/savedMessage.tsx';
import { Spread } from '../parts/spread.tsx';
import { AmendControl } from './amendControl.tsx';
import { ControlAsItStands } from './controlAsItStands.tsx';
import { ControlStory } from './controlStory.tsx';
import { controlTexts } from './controlTexts.ts';

/** One control: all that it says on the left page, how it was judged and how it came to be what it is on the right. */
export function ControlPage({ logged }: { logged: LoggedControl }) {
  const [isAmending, setAmending] = useState(false);
  const [saved, setSaved] = useState('');
  const [wasLeft, setLeft] = useState(false);
  const what = `the ${controlTexts[logged.control.kind].made.toLowerCase()}`;
  if (isAmending) {
    return (
      <AmendControl
        logged={logged}
        onClose={() => {
          setAmending(false);
          setLeft(true);
        }}
        onSaved={() => {
          setAmending(false);
          setSaved(`Saved: ${what} is amended. What it said before stays below, struck through.`);
        }}
      />
    );
  }
  return (
    <Spread
      left={
        <div className="stack">
          <SavedMessage text={saved} />
          <ControlAsItStands
            logged={logged}
            onAmend={() => {
              setSaved('');
              setLeft(false);
              setAmending(true);
            }}
            onSaved={(done) => setSaved(`Saved: ${what} is ${done}.`)}
            takesFocus={wasLeft}
          />
        </div>
      }
      right={<ControlStory logged={logged} />}
    />
  );
}
