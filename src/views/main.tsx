import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { markInBrowser } from '../store/marker.ts';
import { openLogbook } from '../store/openLogbook.ts';
import { askToKeepStorage } from '../store/storageKeeping.ts';
import { App } from './app.tsx';
import './parts/tokens.css';
import './parts/base.css';
import './parts/parts.css';
import './parts/print.css';
import { databaseNames, isDemonstrationAddress } from './routes.ts';

const demonstration = isDemonstrationAddress(window.location.search);
const handle = demonstration ? openLogbook(databaseNames.demonstration) : openLaboratory();
const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root"');
createRoot(root).render(
  <StrictMode>
    <App demonstration={demonstration} handle={handle} />
  </StrictMode>,
);

// Live reload serves what changes at every save: nothing to keep. Without this part the page works as it is.
if (import.meta.env.PROD) {
  import('./newVersionLine.tsx').then(
    ({ startNewVersionLine }) => startNewVersionLine(),
    () => undefined,
  );
}

/** Only the laboratory's own records are worth a mark and a promise: the demonstration is made again from nothing. */
function openLaboratory() {
  let isAsked = false;
  return openLogbook(databaseNames.laboratory, {
    marker: markInBrowser(databaseNames.laboratory),
    onCommitted() {
      if (!isAsked) void askToKeepStorage();
      isAsked = true;
    },
  });
}
