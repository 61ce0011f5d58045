import type { KnownLogbook } from '../../exchange/importKnown.ts';
import type { NameField } from '../../exchange/importNames.ts';
import { type Choice, ChoiceField, choicesOf } from '../parts/field.tsx';
import { reasonWords, routeWords } from '../parts/words.ts';
import { fieldWords } from './importWords.ts';
import { namesToTell, withName } from './planChanges.ts';
import type { Mapping } from './useImport.ts';

const nobody = 'nobody';

/** Names in the file that the logbook does not know: whose they are, or that their rows stay out. */
export function NameFields({
  mapping,
  known,
  onChange,
}: {
  mapping: Mapping;
  known: KnownLogbook;
  onChange: (mapping: Mapping) => void;
}) {
  const columns = namesToTell(mapping, known);
  if (columns.length === 0) return null;
  return (
    <section className="stack group">
      <h2>Names in the file</h2>
      {columns.map(({ field, names }) =>
        names === null ? (
          <p key={field}>
            The column for {fieldWords[field].toLowerCase()} holds more than 40 different texts: it cannot be
            that. Rows whose name the logbook does not know will be refused.
          </p>
        ) : (
          names.map(({ text, id, label }) => (
            <ChoiceField
              choices={[
                { value: nobody, label: 'not in this logbook: refuse its rows' },
                ...choicesFor(field, known),
              ]}
              key={`${field} ${text}`}
              label={
                <>
                  {fieldWords[field]} <em>{label ?? text}</em>
                  {label === null ? null : <span className="quiet small hash"> {text}</span>}
                </>
              }
              onChoice={(chosen) => onChange(withName(mapping, field, text, chosen === nobody ? '' : chosen))}
              value={id ?? nobody}
            />
          ))
        ),
      )}
    </section>
  );
}

function choicesFor(field: NameField, known: KnownLogbook): Choice<string>[] {
  switch (field) {
    case 'analyzer':
      return known.analyzers.map(({ id, description }) => ({ value: id, label: description.label }));
    case 'syringe':
      return known.syringes.map(({ id, description }) => ({ value: id, label: description.label }));
    case 'technologist':
      return known.people.map(({ id, initials, name }) => ({ value: id, label: `${initials}  ${name}` }));
    case 'route':
      return choicesOf(routeWords);
    case 'reason':
      return choicesOf(reasonWords);
    default:
      return [];
  }
}
