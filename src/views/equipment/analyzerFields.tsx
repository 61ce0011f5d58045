import { customaryFixedFactor } from '../../core/index.ts';
import { gasAnalysisWords, tracerWords } from '../gases.ts';
import { useLogbook } from '../logbookContext.tsx';
import { ChoiceField, choicesOf, IfKnown, InputField, plainChoices } from '../parts/field.tsx';
import { plain } from '../parts/figures.ts';
import type { FieldsProps } from '../parts/formReading.ts';
import { TermLine } from '../parts/term.tsx';
import { dlcoUnits, gasConditions, pressureUnits, routeWords } from '../parts/words.ts';
import type { AnalyzerDraft } from './readAnalyzer.ts';
import { SerialField } from './serialField.tsx';

const conversions = choicesOf<AnalyzerDraft['conversion']>({
  'computed-dry': 'Computed from the room, dry test gas',
  'computed-saturated': 'Computed from the room, saturated gas',
  fixed: 'A fixed factor of our procedure',
});
const analyses = choicesOf<AnalyzerDraft['gasAnalysis']>({ 'not-said': 'Not said', ...gasAnalysisWords });
const tracerChoices = choicesOf<AnalyzerDraft['tracer']>({ 'not-said': 'Not said', ...tracerWords });
const plungers = choicesOf<AnalyzerDraft['plunger']>({
  home: 'Plunger home: the whole stroke is inhaled',
  'at-1-l': 'Plunger at 1 L: about 2 L are inhaled',
});
const routes = choicesOf(routeWords);
const conditions = plainChoices(gasConditions);
const pressureChoices = plainChoices(pressureUnits);
const dlcoChoices = plainChoices(dlcoUnits);

export function AnalyzerFields({ draft, errors, onChange }: FieldsProps<AnalyzerDraft>) {
  const { logbook } = useLogbook();
  const syringes = [...logbook.syringes.values()]
    .filter(({ id, retired }) => retired === null || id === draft.syringeId)
    .map(({ id, description }) => ({ value: id, label: description.label }));
  return (
    <>
      <InputField
        data-long
        error={errors.label}
        label="Name"
        onText={(label) => onChange({ label })}
        placeholder="Room 2"
        value={draft.label}
      />
      <InputField
        data-long
        label={<IfKnown>Place</IfKnown>}
        onText={(place) => onChange({ place })}
        value={draft.place}
      />
      <SerialField onChange={onChange} serial={draft.serial} />
      <ChoiceField
        choices={analyses}
        hint="How the gas analyzer gets its sample: it narrows where a fault can be."
        label={<IfKnown>Gas analysis</IfKnown>}
        onChoice={(gasAnalysis) => onChange({ gasAnalysis })}
        value={draft.gasAnalysis}
      />
      <ChoiceField
        choices={tracerChoices}
        hint="A cylinder without it is asked about when it is fitted."
        label={<IfKnown>Tracer gas</IfKnown>}
        onChoice={(tracer) => onChange({ tracer })}
        value={draft.tracer}
      />
      <ChoiceField
        choices={syringes}
        error={errors.syringeId}
        label="Usual syringe"
        onChoice={(syringeId) => onChange({ syringeId })}
        value={draft.syringeId}
      />
      <ChoiceField
        choices={routes}
        hint="The published standard asks for the analyzer’s normal patient test."
        label="Usual route"
        onChoice={(route) => onChange({ route })}
        value={draft.route}
      />
      <TermLine ids={['route', 'conversion', 'dead-space']} />
      <ChoiceField
        choices={conditions}
        label="VA is reported as"
        onChoice={(vaReportedAs) => onChange({ vaReportedAs })}
        value={draft.vaReportedAs}
      />
      <ChoiceField
        choices={conversions}
        hint="Cylinder gas is dry. Computing takes the day’s temperature and pressure; a fixed factor is right in one room only."
        label="VA is converted"
        onChoice={(conversion) => onChange({ conversion })}
        value={draft.conversion}
      />
      {draft.conversion === 'fixed' ? (
        <InputField
          error={errors.fixedFactor}
          hint={`Multiplies the VA in BTPS; ${plain(customaryFixedFactor)} is common practice.`}
          inputMode="decimal"
          label="Fixed factor"
          onText={(fixedFactor) => onChange({ fixedFactor })}
          value={draft.fixedFactor}
        />
      ) : null}
      <InputField
        after={<span className="unit">mL</span>}
        error={errors.analyzerDeadSpaceMl}
        hint="What the analyzer subtracts from the inspired volume by itself, before it reports VA. Often 0 for a syringe."
        inputMode="decimal"
        label="Dead space it subtracts"
        onText={(analyzerDeadSpaceMl) => onChange({ analyzerDeadSpaceMl })}
        value={draft.analyzerDeadSpaceMl}
      />
      <ChoiceField
        choices={plungers}
        label="Plunger at the start"
        onChoice={(plunger) => onChange({ plunger })}
        value={draft.plunger}
      />
      <ChoiceField
        choices={pressureChoices}
        label="Pressure is read in"
        onChoice={(pressureUnit) => onChange({ pressureUnit })}
        value={draft.pressureUnit}
      />
      <ChoiceField
        choices={dlcoChoices}
        label="DLCO is reported in"
        onChoice={(dlcoUnit) => onChange({ dlcoUnit })}
        value={draft.dlcoUnit}
      />
    </>
  );
}
