import { useLocation } from 'wouter';
import { useLogbook } from '../logbookContext.tsx';
import { RestoreForm } from '../parts/restoreForm.tsx';
import { Spread } from '../parts/spread.tsx';
import { demonstrationHref } from '../routes.ts';
import { draftForAnalyzer } from '../runForm/draftMoves.ts';
import { useScreenState } from '../screenState.ts';
import { AnalyzerFields } from './analyzerFields.tsx';
import { DescriptionForm } from './descriptionForm.tsx';
import { addAnalyzer, addPerson, addSyringe } from './makeEntries.ts';
import { PersonFields } from './personFields.tsx';
import { newAnalyzer } from './readAnalyzer.ts';
import { analyzerReader, personReader, syringeReader } from './readers.ts';
import { emptyPerson } from './readPerson.ts';
import { askAboutSyringe, emptySyringe } from './readSyringe.ts';
import { SyringeFields } from './syringeFields.tsx';
import './equipment.css';

/** An empty logbook: three forms one after the other, then the bench. */
export default function FirstPage() {
  const { logbook } = useLogbook();
  const step = logbook.technologists.size === 0 ? 0 : logbook.syringes.size === 0 ? 1 : 2;
  return (
    <Spread
      left={
        <div className="stack stack--loose">
          <header className="stack">
            <h1>Diffusion QC Logbook</h1>
            <p>
              A logbook for the weekly syringe check of your DLCO analyzers. It is empty. Three short forms,
              and the first run can be recorded.
            </p>
          </header>
          <StepForm step={step} />
        </div>
      }
      right={<WhatToExpect step={step} />}
    />
  );
}

function StepForm({ step }: { step: 0 | 1 | 2 }) {
  const { logbook } = useLogbook();
  const { benchDraft, setBenchDraft } = useScreenState();
  const [, goTo] = useLocation();
  switch (step) {
    case 0:
      return (
        <DescriptionForm
          Fields={PersonFields}
          action="Add me"
          asksWho={false}
          initial={emptyPerson}
          key="person"
          makeEntries={(description) => addPerson(description)}
          onDone={([entry]) => entry && setBenchDraft({ ...benchDraft, technologistId: entry.by })}
          read={personReader(logbook)}
          title="1. Who writes in this logbook first?"
        />
      );
    case 1:
      return (
        <DescriptionForm
          Fields={SyringeFields}
          action="Add syringe"
          initial={emptySyringe}
          key="syringe"
          makeEntries={addSyringe}
          onDone={() => undefined}
          questionsAbout={(description) => askAboutSyringe(description)}
          read={syringeReader(logbook)}
          title="2. The syringe"
        />
      );
    case 2:
      return (
        <DescriptionForm
          Fields={AnalyzerFields}
          action="Add analyzer"
          initial={newAnalyzer(logbook)}
          key="analyzer"
          makeEntries={addAnalyzer}
          onDone={([entry]) => {
            if (entry?.kind === 'analyzer-added') {
              const added = { id: entry.body.analyzerId, description: entry.body, history: [] };
              setBenchDraft(draftForAnalyzer(benchDraft, added, undefined));
            }
            goTo('/bench');
          }}
          read={analyzerReader(logbook)}
          title="3. The analyzer"
        />
      );
  }
}

const steps = ['You', 'The syringe', 'The analyzer', 'The first run'];

function RestoreFromBackup() {
  const { handle } = useLogbook();
  return (
    <section className="stack group">
      <h2>Restore from a backup</h2>
      <p>
        A logbook that was kept elsewhere goes on here: pick its backup file, or its standing second copy.
      </p>
      <RestoreForm handle={handle} />
    </section>
  );
}

function WhatToExpect({ step }: { step: number }) {
  return (
    <div className="stack stack--loose">
      <section className="stack">
        <h2>What stands here soon</h2>
        <ol className="step-list">
          {steps.map((name, index) => (
            <li aria-current={index === step ? 'step' : undefined} key={name}>
              {name}
              {index < step ? <span className="quiet"> – written</span> : null}
            </li>
          ))}
        </ol>
      </section>
      <RestoreFromBackup />
      <section className="stack group">
        <h2>What this logbook does</h2>
        <p>
          A syringe in place of a patient takes up no carbon monoxide and has a known volume. The analyzer
          must report a DLCO near zero and a VA near 3 L. You type what it reports; the logbook converts,
          compares with the published limits and with your own runs, and says what to do.
        </p>
        <p>
          Everything stays in this browser on this computer. Nothing that is recorded is ever erased. A
          private window forgets it all when it is closed: use an ordinary one.
        </p>
      </section>
      <section className="stack group">
        <h2>Look first</h2>
        <p>
          An invented laboratory with eighteen months of runs is kept apart from your own logbook.{' '}
          <a href={demonstrationHref}>Open the demonstration</a>
        </p>
      </section>
      <section className="stack group quiet small">
        <p>
          This is not a medical device and stores no patient data. It advises; local procedure, the
          manufacturer’s instructions and licensed practice decide whether patients are tested. Test gas holds
          carbon monoxide: ventilate, secure the cylinder, follow local rules.
        </p>
      </section>
    </div>
  );
}
