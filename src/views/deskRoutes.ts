/** Addresses of the supervisor’s desk. In a file of their own: the bench, which waits for routes.ts, leads to none of them. */
import type { Control, ControlSeriesName, NotedCheck, SeriesName } from '../journal/entries.ts';
import type { MethodPlace } from './terms.ts';

/** How soon one analyzer's rules notice a shift. */
export const noticeHref = (analyzerId: string) => `/notice/${encodeURIComponent(analyzerId)}`;

/** Every series of every analyzer on one page. */
export const fleetHref = '/fleet';

/** What analyzers run with the same syringe on a day have in common; the list of such days where no day is named. */
export const commonHref = (date?: string) => (date === undefined ? '/common' : `/common/${date}`);

/** How far the technologists of one analyzer and route read apart. */
export const technologistsHref = (analyzerId: string, route: string) =>
  `/common/technologists/${encodeURIComponent(analyzerId)}/${route}`;

/** The runs that make the baseline of one series of syringe runs. */
export const baselineHref = ({
  analyzerId,
  route,
  quantity,
}: Omit<SeriesName, 'method'> & { analyzerId: string }) =>
  `/baseline/${encodeURIComponent(analyzerId)}/${route}/${quantity}`;

/** What is new since the last sign-off; `page`: of which analyzer, by its id. */
export const signOffHref = (page?: string) =>
  page === undefined ? '/sign-off' : `/sign-off/${encodeURIComponent(page)}`;

/** One sign-off that was made. */
export const signedHref = (signOffId: string) => `/sign-off/signed/${encodeURIComponent(signOffId)}`;

/** Where a biological control or a simulator's session is typed; `runId`: the run whose failure it looks into. */
export const newControlHref = (kind: Control['kind'], analyzerId: string, runId?: string) => {
  const path = `/control/${kind}/${encodeURIComponent(analyzerId)}`;
  return runId === undefined ? path : `${path}/${encodeURIComponent(runId)}`;
};

/** The persons who serve as biological controls. */
export const subjectsHref = '/equipment/subjects';
export const subjectHref = (subjectId: string) => `/equipment/subject/${encodeURIComponent(subjectId)}`;

/** The page of one control. */
export const controlHref = (controlId: string) => `/control/made/${encodeURIComponent(controlId)}`;

/** The chart of one series of controls. */
export const controlSeriesHref = (analyzerId: string, series: ControlSeriesName) => {
  const path = `/controls/${encodeURIComponent(analyzerId)}`;
  return series.kind === 'biological'
    ? `${path}/biological/${encodeURIComponent(series.subjectId)}/${series.quantity}`
    : `${path}/simulator/${series.level}`;
};

/** The chart of a check with figures, such as the volume calibration check of an analyzer. */
export const checkSeriesHref = (
  analyzerId: string,
  check: Extract<NotedCheck, 'volume-check' | 'linearity'>,
) => `/controls/${encodeURIComponent(analyzerId)}/${check}`;

/** Weeks with and without a run, and how many came in time; of one analyzer, or of all. */
export const completenessHref = (analyzerId?: string) =>
  analyzerId === undefined ? '/completeness' : `/completeness/${encodeURIComponent(analyzerId)}`;

/** The story of a failure of controls, by what opened it and in which of its series. */
export const controlFailureHref = (controlId: string, series: ControlSeriesName) =>
  `/review/control/${encodeURIComponent(controlId)}/${series.kind === 'biological' ? series.quantity : series.level}`;

/** How every number is made; `place`: the part of it that is asked for. */
export const methodHref = (place?: MethodPlace) => (place === undefined ? '/method' : `/method/${place}`);

/** The assessor's package and the printed report. */
export const packageHref = '/package';
export const reportHref = '/report';
export const reportOfPeriodHref = ({ from, to }: { from: string; to: string }) =>
  `${reportHref}/${from}/${to}`;

/** An address that was cut in the middle of a letter names nothing, and must not take the page with it. */
export function decodedPart(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    return address;
  }
}
