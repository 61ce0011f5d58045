/** Addresses of the supervisor’s desk. In a file of their own: the bench, which waits for routes.ts, leads to none of them. */
import type { SeriesName } from '../journal/entries.ts';

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
