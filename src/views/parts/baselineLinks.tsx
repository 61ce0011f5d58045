import { Link } from 'wouter';
import type { SeriesName } from '../../journal/entries.ts';
import { baselineHref } from '../deskRoutes.ts';
import { quantities } from '../failures.ts';
import { useLogbook } from '../logbookContext.tsx';
import { quantityWords, routeWords } from './words.ts';

const routes = ['patient-test', 'built-in'] as const;

/** The way to the baseline of each series of one analyzer that has a run; nothing where none has. */
export function BaselineLinks({ analyzerId, except }: { analyzerId: string; except?: SeriesName }) {
  const { logbook } = useLogbook();
  const series = routes
    .filter((route) =>
      logbook.runs.some(
        ({ body }) => body.analyzerId === analyzerId && body.route === route && body.method === 'syringe',
      ),
    )
    .flatMap((route) => quantities.map((quantity) => ({ route, quantity })))
    .filter(({ route, quantity }) => route !== except?.route || quantity !== except.quantity);
  if (series.length === 0) return null;
  return (
    <p className="line">
      {series.map(({ route, quantity }) => (
        <Link href={baselineHref({ analyzerId, route, quantity })} key={`${route} ${quantity}`}>
          Baseline of {quantityWords[quantity]}, {routeWords[route].toLowerCase()}
        </Link>
      ))}
    </p>
  );
}
