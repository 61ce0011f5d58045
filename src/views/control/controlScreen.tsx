import { Link, useParams } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { Notice } from '../parts/notice.tsx';
import { Spread } from '../parts/spread.tsx';
import './control.css';
import { readControlAddress } from './controlAddress.ts';
import { ControlPage } from './controlPage.tsx';
import { NewControlPage } from './newControlPage.tsx';

/** Where a biological control or a simulator's session is typed, and the page of one that was made. */
export default function ControlScreen() {
  const { logbook } = useLogbook();
  const { '*': rest = '' } = useParams();
  const asked = readControlAddress(rest, logbook);
  if (asked === null) return <Spread left={<NoSuchControl />} right={null} />;
  // Another address is another page, and another form.
  return asked.page === 'made' ? (
    <ControlPage key={rest} logged={asked.control} />
  ) : (
    <NewControlPage asked={asked.asked} key={rest} />
  );
}

function NoSuchControl() {
  return (
    <Notice title="This address names no control of this logbook." tone="quiet">
      <p>
        Each analyzer’s controls stand under <Link href="/controls">Controls</Link>, with the way to enter
        another.
      </p>
    </Notice>
  );
}
