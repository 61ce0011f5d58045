import { useEffect } from 'react';
import { laboratoryOf } from '../journal/standing.ts';
import { useLogbook } from './logbookContext.tsx';

const product = 'Diffusion QC Logbook';

/** Whose logbook it is, in the top line, and in the window's title by which one window is told from another. */
export function LaboratoryName() {
  const { logbook } = useLogbook();
  const { name } = laboratoryOf(logbook);
  useEffect(() => {
    document.title = name === '' ? product : `${name}, ${product}`;
    return () => {
      document.title = product;
    };
  }, [name]);
  return (
    <span className="top-line__title">
      {product}
      {name === '' ? null : <span className="top-line__laboratory">{name}</span>}
    </span>
  );
}
