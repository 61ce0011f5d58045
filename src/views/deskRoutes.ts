/** Addresses of the supervisor’s desk. In a file of their own: the bench, which waits for routes.ts, leads to none of them. */
import type { SeriesName } from '../journal/entries.ts';

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

/** An address that was cut in the middle of a letter names nothing, and must not take the page with it. */
export function decodedPart(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    return address;
  }
}
