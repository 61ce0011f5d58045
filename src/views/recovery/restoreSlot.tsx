/** Where a backup file is picked and restored while entries are missing. */
export function RestoreSlot() {
  return <p className="quiet">Backup files are restored under Records.</p>;
}
