import type { NoticeAnswers } from './useNotice.ts';

/** What the rules that are tried do, beside them: on a narrow page the tables are out of sight while one is changed. */
export function Moved({ isTried, answers }: { isTried: boolean; answers: NoticeAnswers }) {
  const { tables, falseAlarms } = answers;
  const [ofAnalyzer] = falseAlarms;
  const moved = tables.filter((table) => table.moved !== '');
  return (
    <div aria-live="polite" className="stack">
      {isTried ? (
        <>
          <h3>With these rules</h3>
          <ul className="stack notice-moved">
            {moved.map(({ heading, moved: sentence }) => (
              <li key={heading}>
                <span className="quiet">{heading}</span> {sentence}
              </li>
            ))}
            {ofAnalyzer === undefined ? null : (
              <li>
                <span className="quiet">False alarms of this analyzer</span> {ofAnalyzer.whatIf}, in force{' '}
                {ofAnalyzer.inForce}.
              </li>
            )}
          </ul>
        </>
      ) : null}
    </div>
  );
}
