import { useState } from 'react';
import type { Analyzer, Cylinder } from '../../journal/logbook.ts';
import { fittingAt } from '../../journal/standing.ts';
import { openFailures } from '../failures.ts';
import { contentsInShort } from '../gases.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField } from '../parts/field.tsx';
import { useFailures } from '../useFailures.ts';
import { askAboutFitting } from './askAboutFitting.ts';
import { BaselineTick } from './baselineTick.tsx';
import { HappeningForm } from './happeningForm.tsx';
import { fitCylinder } from './makeEntries.ts';

const none = 'none';

/** Which cylinder an analyzer takes its test gas from, from when on; opened on the record of either. */
export function FitForm({
  analyzer: opened,
  cylinder: openedCylinder,
  onDone,
}: {
  analyzer?: Analyzer;
  cylinder?: Cylinder;
  onDone: () => void;
}) {
  const { logbook } = useLogbook();
  const failures = openFailures(useFailures());
  const analyzers = [...logbook.analyzers.values()].filter(isInUse);
  const cylinders = [...logbook.cylinders.values()].filter(isInUse);
  const [onlyOne] = analyzers.length === 1 ? analyzers : [];
  const [analyzerId, setAnalyzerId] = useState(opened?.id ?? onlyOne?.id ?? '');
  const [cylinderId, setCylinderId] = useState(openedCylinder?.id ?? '');
  const [isTicked, setTicked] = useState(false);
  const analyzer = analyzers.find(({ id }) => id === analyzerId);
  const cylinder = cylinders.find(({ id }) => id === cylinderId);
  const hasOpenFailure = failures.some((failure) => failure.analyzerId === analyzerId);
  const startsBaseline = isTicked && !hasOpenFailure;
  const isFitted =
    (fittingAt(logbook, analyzerId, new Date().toISOString())?.body.cylinderId ?? null) !== null;
  const isGasChosen = cylinder !== undefined || cylinderId === none;

  return (
    <HappeningForm
      action={cylinderId === none ? 'Record that none is fitted' : 'Record the fitting'}
      fields={() =>
        analyzer === undefined ? null : (
          <BaselineTick
            analyzerId={analyzer.id}
            checked={isTicked}
            hasOpenFailure={hasOpenFailure}
            onTick={setTicked}
          />
        )
      }
      first={(tried) => (
        <>
          <ChoiceField
            choices={analyzers.map(({ id, description }) => ({ value: id, label: description.label }))}
            error={tried && analyzer === undefined ? 'Choose the analyzer.' : undefined}
            label="Analyzer"
            onChoice={setAnalyzerId}
            value={analyzerId}
          />
          <ChoiceField
            choices={[
              ...cylinders.map(({ id, description }) => ({
                value: id,
                label: `${description.label}: ${contentsInShort(description)}`,
              })),
              ...(isFitted || cylinderId === none ? [{ value: none, label: 'None: taken off' }] : []),
            ]}
            error={tried && !isGasChosen ? 'Choose the cylinder.' : undefined}
            hint={cylinders.length === 0 ? 'No cylinder in the list yet: add it first.' : undefined}
            label="Cylinder"
            onChoice={setCylinderId}
            value={isGasChosen ? cylinderId : ''}
          />
        </>
      )}
      intro={
        <p>
          From then on its results stand under this gas, and the event is on its charts. Enter the
          concentrations of the certificate on the analyzer as well.
        </p>
      }
      isWhole={analyzer !== undefined && isGasChosen}
      makeEntries={(fittedAt, by) =>
        fitCylinder({ analyzerId, fittedAt }, cylinder ?? null, startsBaseline, by)
      }
      onDone={onDone}
      only={startsBaseline ? 'supervisor' : undefined}
      questionsAbout={(fittedAt) =>
        analyzer === undefined ? [] : askAboutFitting(logbook, analyzer, cylinder ?? null, fittedAt)
      }
      title={
        openedCylinder
          ? `Fit ${openedCylinder.description.label}`
          : `Fit a cylinder to ${opened?.description.label}`
      }
      typed={[analyzerId, cylinderId, startsBaseline]}
      when="Fitted on"
    />
  );
}

const isInUse = ({ retired }: { retired: unknown }) => retired === null;
