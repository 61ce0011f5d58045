import { Link } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { counted } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';

/** What biological controls are, before one is chosen from the list. */
export function SubjectsPage() {
  const { logbook } = useLogbook();
  const inUse = [...logbook.subjects.values()].filter(({ retired }) => retired === null);
  return (
    <article className="stack stack--loose record">
      <h1>Biological controls</h1>
      <p>
        A healthy person is tested as a patient is, on each analyzer, week after week. What the syringe does
        not exercise shows here: warm moist gas, the patient circuit, the test as a whole.
      </p>
      <Notice title="A code, and nothing else." tone="quiet">
        <p>
          Nobody’s name, initials, date of birth or number of a record stands in this logbook, and what is
          written in it is never erased. The key to the codes is kept elsewhere, by local rules.
        </p>
      </Notice>
      {inUse.length === 0 ? (
        <p>Nobody is known here yet.</p>
      ) : (
        <p>{counted(inUse.length, 'person is', 'people are')} known here: choose one from the list.</p>
      )}
      <p>
        <Link href="/equipment/new/subject">Add a subject</Link>
      </p>
    </article>
  );
}
