import { useLogbook } from '../logbookContext.tsx';

/** By a technologist's id, what stands beside a record. */
export function useInitials(): (technologistId: string) => string {
  const { logbook } = useLogbook();
  return (technologistId) => logbook.technologists.get(technologistId)?.initials ?? 'unknown';
}
