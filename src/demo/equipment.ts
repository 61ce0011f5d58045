/** The equipment as its labels describe it; several analyzers are of one kind. */
import type { Attachment } from '../journal/entries.ts';
import type { AnalyzerPlan } from './plan.ts';

export const filter: Attachment = { name: 'Filter', volumeL: 0.04 };

export const room1: AnalyzerPlan['description'] = {
  label: 'Room 1 rapid-gas',
  place: 'Room 1',
  serial: 'A-1',
  route: 'patient-test',
  conversion: { kind: 'computed', assumed: 'ATPD' },
  vaReportedAs: 'BTPS',
  analyzerDeadSpaceL: 0,
  volumeInsideL: 0,
  pressureUnit: 'mmHg',
  dlcoUnit: 'mL/min/mmHg',
  gasAnalysis: 'continuous',
  tracer: 'CH4',
};

export const room2: AnalyzerPlan['description'] = {
  ...room1,
  label: 'Room 2 sample-bag',
  place: 'Room 2',
  serial: 'A-2',
  analyzerDeadSpaceL: 0.1,
  pressureUnit: 'kPa',
  dlcoUnit: 'mmol/min/kPa',
  gasAnalysis: 'sample-bag',
};

export const room4: AnalyzerPlan['description'] = {
  ...room1,
  label: 'Room 4 rapid-gas',
  place: 'Room 4, first floor',
  serial: 'A-3',
  conversion: { kind: 'fixed', factor: 0.91 },
  volumeInsideL: 1,
  pressureUnit: 'hPa',
};
