import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { openLogbook } from '../store/openLogbook.ts';
import { App } from './app.tsx';
import './parts/tokens.css';
import './parts/base.css';
import './parts/parts.css';
import { databaseNames, isDemonstrationAddress } from './routes.ts';

const demonstration = isDemonstrationAddress(window.location.search);
const handle = openLogbook(demonstration ? databaseNames.demonstration : databaseNames.laboratory);
const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root"');
createRoot(root).render(
  <StrictMode>
    <App demonstration={demonstration} handle={handle} />
  </StrictMode>,
);
