/** The words at the head of a report's columns, in the languages of its labels. Common practice, no source. */
import { plainLabel } from './reportLabels.ts';

/** Heads of columns, by what the column holds. */
const columnHeads = {
  measured: [
    'meas',
    'measured',
    'actual',
    'act',
    'result',
    'value',
    'best',
    'pre',
    'trial 1',
    'test 1',
    '1',
    'gemessen',
    'ist',
    'messwert',
    'wert',
    'mesure',
    'mesuree',
    'valeur',
    'medido',
    'medida',
    'valor',
    'resultado',
  ],
  other: [
    'pred',
    'predicted',
    'ref',
    'reference',
    '% pred',
    '%pred',
    '% ref',
    '%ref',
    '%',
    'lln',
    'uln',
    'z',
    'z score',
    'zscore',
    'soll',
    'sollwert',
    '% soll',
    '%soll',
    '% ist/soll',
    'theo',
    'theorique',
    '% theo',
    '%theo',
    'teor',
    'teorico',
    '% teor',
    '%teor',
    'referencia',
    'post',
    'mean',
    'mittel',
    'moyenne',
    'media',
    'trial 2',
    'trial 3',
    'test 2',
    'test 3',
    '2',
    '3',
  ],
  names: ['parameter', 'param', 'test', 'messgrosse', 'parametre', 'parametro', 'name', ''],
  units: ['unit', 'units', 'einheit', 'unite', 'unites', 'unidad', 'unidades'],
} as const;

export type ColumnKind = keyof typeof columnHeads;

const kindOfHead = new Map<string, ColumnKind>(
  (Object.keys(columnHeads) as ColumnKind[]).flatMap((kind) =>
    columnHeads[kind].map((head) => [head, kind] as const),
  ),
);

export const columnKind = (head: string): ColumnKind | undefined => kindOfHead.get(plainLabel(head));
