import type { Failure } from '../failures.ts';

/** The page of one failure. */
export const failureAddress = ({ openedBy, series }: Failure) => `/review/${openedBy.id}/${series.quantity}`;
