/**
 * A root of its own below the page: what it says stands on every screen, also where the page itself has failed, and
 * nothing that is being typed moves for it.
 */
import { StrictMode, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { type NewVersion, watchForNewVersion } from './newVersion.ts';
import './newVersion.css';
import { type TypedText, watchTyping } from './typedText.ts';

export function startNewVersionLine() {
  const place = document.getElementById('new-version');
  // An old browser, or an address that is neither https nor this computer: the logbook works, with its server.
  if (place === null || !('serviceWorker' in navigator)) return;
  const root = createRoot(place);
  const typed = watchTyping(document);
  void watchForNewVersion(navigator.serviceWorker, (version) =>
    root.render(
      <StrictMode>
        <NewVersionLine reload={() => window.location.reload()} typed={typed} version={version} />
      </StrictMode>,
    ),
  ).catch(() => undefined);
}

interface Props {
  version: NewVersion;
  typed: TypedText;
  reload(): void;
}

export function NewVersionLine({ version, typed, reload }: Props) {
  const [stage, setStage] = useState<'told' | 'asked' | 'going'>('told');
  const go = () => {
    setStage('going');
    version.takeUp(reload);
  };
  if (stage === 'going') return <p className="new-version">Loading the new version…</p>;
  if (stage === 'asked') {
    return (
      <p className="new-version">
        <span>What you have typed on this page is not saved and would be lost.</span>
        <button onClick={() => setStage('told')} type="button">
          Not now
        </button>
        <button onClick={go} type="button">
          Reload all the same
        </button>
      </p>
    );
  }
  return (
    <p className="new-version">
      <span>A new version is ready. Reload when you have finished.</span>
      <button onClick={() => (typed.wouldBeLost() ? setStage('asked') : go())} type="button">
        Reload
      </button>
    </p>
  );
}
