/** Whether the browser promises to keep what is stored, and how much of it there is. */
export interface StorageKeeping {
  /** Null where the browser does not say. */
  isPromised: boolean | null;
  usedBytes: number | null;
  allowedBytes: number | null;
}

/**
 * Asks the browser not to clear this page's storage when the disk runs short. To be asked after the first save: a browser
 * that puts the question to the person then puts it when there is something to keep. True when it promises.
 */
export async function askToKeepStorage(): Promise<boolean> {
  try {
    return (await navigator.storage.persisted()) || (await navigator.storage.persist());
  } catch {
    return false; // no such promise in this browser, or not at this address
  }
}

export async function readStorageKeeping(): Promise<StorageKeeping> {
  try {
    const [isPromised, { usage, quota }] = await Promise.all([
      navigator.storage.persisted(),
      navigator.storage.estimate(),
    ]);
    return { isPromised, usedBytes: usage ?? null, allowedBytes: quota ?? null };
  } catch {
    return { isPromised: null, usedBytes: null, allowedBytes: null };
  }
}
