import { laboratoryOf } from '../journal/standing.ts';
import { useLogbook } from './logbookContext.tsx';

/** Whose logbook it is, in the top line. */
export function LaboratoryName() {
  const { logbook } = useLogbook();
  const { name } = laboratoryOf(logbook);
  return (
    <span className="top-line__title">
      Diffusion QC Logbook
      {name === '' ? null : <span className="top-line__laboratory">{name}</span>}
    </span>
  );
}
