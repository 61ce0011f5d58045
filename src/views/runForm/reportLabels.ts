/**
 * The words by which a report names what it prints, in English, German, French and Spanish: the trade's own words and
 * abbreviations, no product's. Common practice, no source. Each is written as `plainLabel` leaves it.
 */
import type { NumberFieldName } from './benchDraft.ts';

const labels: Record<NumberFieldName, readonly string[]> = {
  va: [
    'va',
    'alveolar volume',
    'alveolar vol',
    'alveolarvolumen',
    'alveolares volumen',
    'volume alveolaire',
    'volumen alveolar',
  ],
  dlco: [
    'dlco',
    'dl co',
    'tlco',
    'tl co',
    'diffusing capacity',
    'diffusion capacity',
    'transfer factor',
    'transferfaktor',
    'diffusionskapazitat',
    'co diffusionskapazitat',
    'capacite de diffusion',
    'facteur de transfert',
    'capacidad de difusion',
    'factor de transferencia',
  ],
  inspiredVolume: [
    'vi',
    'vin',
    'ivc',
    'inspired volume',
    'inspired vol',
    'inspiratory volume',
    'inspiratory vol',
    'inspired vital capacity',
    'inspiratory vital capacity',
    'inspirationsvolumen',
    'inspiratorisches volumen',
    'inspiratorische vitalkapazitat',
    'volume inspire',
    'capacite vitale inspiratoire',
    'cvi',
    'volumen inspirado',
    'capacidad vital inspiratoria',
  ],
  breathHold: [
    'bht',
    'tbh',
    'breath hold',
    'breath hold time',
    'breathhold time',
    'apnea time',
    'apnoea time',
    'apnoezeit',
    'atemanhaltezeit',
    'anhaltezeit',
    'temps d apnee',
    'duree d apnee',
    'tiempo de apnea',
  ],
  volumeCheck: [
    'volume check',
    'volume calibration check',
    'volumenkontrolle',
    'volumenprufung',
    'controle de volume',
    'controle du volume',
    'control de volumen',
    'verificacion de volumen',
  ],
  temperature: [
    'temp',
    'temperature',
    'ambient temperature',
    'ambient temp',
    'room temperature',
    'room temp',
    'temperatur',
    'raumtemperatur',
    'umgebungstemperatur',
    'temperature ambiante',
    'temp ambiante',
    'temperatura',
    'temperatura ambiente',
    'temp ambiente',
  ],
  pressure: [
    'pressure',
    'pb',
    'pbar',
    'p bar',
    'patm',
    'baro',
    'barometer',
    'barometric pressure',
    'atmospheric pressure',
    'ambient pressure',
    'luftdruck',
    'barometerdruck',
    'barometrischer druck',
    'umgebungsdruck',
    'pression',
    'pression barometrique',
    'pression atmospherique',
    'presion',
    'presion barometrica',
    'presion atmosferica',
  ],
  humidity: [
    'rh',
    'rf',
    'humidity',
    'rel humidity',
    'relative humidity',
    'luftfeuchte',
    'luftfeuchtigkeit',
    'rel luftfeuchte',
    'relative luftfeuchte',
    'relative luftfeuchtigkeit',
    'rel feuchte',
    'relative feuchte',
    'feuchte',
    'humidite',
    'humidite relative',
    'humedad',
    'humedad relativa',
    'hr',
  ],
};

/** What may name a person. A line that begins with one is not looked at any further. */
const personal = [
  'patient',
  'paciente',
  'name',
  'surname',
  'first name',
  'last name',
  'vorname',
  'nachname',
  'nom',
  'prenom',
  'nombre',
  'apellido',
  'apellidos',
  'id',
  'identifier',
  'mrn',
  'nhs',
  'case',
  'fallnummer',
  'dob',
  'date of birth',
  'birth',
  'born',
  'geb',
  'geboren',
  'geburtsdatum',
  'ne',
  'nee',
  'ne le',
  'date de naissance',
  'fecha de nacimiento',
  'nacimiento',
  'age',
  'alter',
  'edad',
  'sex',
  'gender',
  'geschlecht',
  'sexe',
  'sexo',
  'height',
  'weight',
  'grosse',
  'gewicht',
  'taille',
  'poids',
  'talla',
  'peso',
  'address',
  'adresse',
  'direccion',
  'physician',
  'arzt',
  'medecin',
  'medico',
];

const fieldOfLabel = new Map(
  (Object.keys(labels) as NumberFieldName[]).flatMap((field) =>
    labels[field].map((label) => [label, field] as const),
  ),
);
const personalWords = new Set(personal);

/** How a gas was measured and in which condition stands beside many a label and does not change what it names. */
const asides = /\b(?:btps|atps|atpd|stpd|atp|sb|single breath)\b/g;

/** Without accents, capitals, punctuation and what stands in brackets; `/` stays: DLCO/VA is another quantity than DLCO. */
export const plainLabel = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .toLowerCase()
    .replace(/[([{][^)\]}]*[)\]}]/g, ' ')
    .replace(/[^\p{L}\p{N}/%]+/gu, ' ')
    .replace(asides, ' ')
    .replace(/\s+/g, ' ')
    .trim();

export const fieldNamed = (label: string): NumberFieldName | undefined => fieldOfLabel.get(plainLabel(label));

/** Whether a line begins with a word that may lead to a person. */
export function isPersonal(line: string): boolean {
  const words = plainLabel(line).split(' ');
  return [1, 2, 3].some((count) => personalWords.has(words.slice(0, count).join(' ')));
}
