/** What a file has to hold, before one is picked. */
export function ImportHelp() {
  return (
    <div className="stack stack--loose import-help">
      <section className="stack">
        <h2>What a file needs</h2>
        <p>One row a run, and a first row that names the columns. In any order, under any names:</p>
        <ul>
          <li>the date, with or without a time of day</li>
          <li>VA and DLCO as the analyzer reported them, not yet converted</li>
          <li>temperature and barometric pressure of the room</li>
        </ul>
        <p>
          What is the same for all runs, such as the analyzer, the pressure of a site that kept none, or who
          made them, can be chosen once for the whole file. Analyzers, syringes and people are entered under
          Equipment first.
        </p>
        <p className="line">
          <a download href="./import-template.csv">
            Template
          </a>
          <a download href="./import-example.csv">
            Example with invented runs
          </a>
          <a href="./import-template.md">What each column means</a>
        </p>
      </section>
      <section className="stack group">
        <h2>How it is read</h2>
        <p>
          Nothing is guessed in silence. Which column is which, units, decimal mark and the order of day and
          month are proposed with what they rest on, and you confirm them beside the first rows as they were
          understood. Dates are taken in the time zone of this computer; a run without a time of day is put at
          12:00.
        </p>
        <p>
          A number that cannot be, as at the bench, is refused with its reason. Refused rows can be saved as a
          file, put right and imported again.
        </p>
        <p>
          A run is the same run where analyzer, method, route, date and time, and the reported VA and DLCO are
          the same: the same file imported twice adds nothing.
        </p>
      </section>
      <section className="stack group">
        <h2>What becomes of them</h2>
        <p>
          Imported runs stand in the charts and make the baseline like any other; the history of each names
          its file and row. Nobody judged them here on their day: their verdict is what comes out of the
          journal now. A whole import can be voided; its runs then stay, struck through.
        </p>
      </section>
    </div>
  );
}
