/**
 * A folder of the person's computer or network that the page may write in: how it is picked, and how a file in it is
 * replaced. Some browsers offer it, some never will.
 */

/** The parts of the browser's folder and file handles that are used, so that a test can bring its own. */
export interface CopyFolder {
  readonly name: string;
  getFileHandle(name: string, options: { create: boolean }): Promise<CopyFile>;
  queryPermission?(wanted: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(wanted: { mode: 'readwrite' }): Promise<PermissionState>;
}

export interface CopyFile {
  getFile(): Promise<Blob>;
  createWritable(): Promise<{
    write(bytes: Uint8Array<ArrayBuffer>): Promise<void>;
    close(): Promise<void>;
    abort(): Promise<void>;
  }>;
}

declare global {
  interface Window {
    showDirectoryPicker?: (options: { id: string; mode: 'readwrite' }) => Promise<CopyFolder>;
  }
}

export const canPickFolder = () =>
  typeof window !== 'undefined' && typeof window.showDirectoryPicker === 'function';

/** Only a press of a button may call it. Null when the person picks none after all. */
export async function pickFolder(): Promise<CopyFolder | null> {
  try {
    return (await window.showDirectoryPicker?.({ id: 'second-copy', mode: 'readwrite' })) ?? null;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}

/**
 * Replaces what is in the file. The browser writes a temporary file beside it and puts that in its place on close, in one
 * step: whoever reads meanwhile, or pulls the plug, has the old content or the new one.
 */
export async function putInPlace(file: CopyFile, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  const writable = await file.createWritable();
  try {
    await writable.write(bytes);
  } catch (error) {
    await writable.abort().catch(() => {});
    throw error;
  }
  await writable.close();
  const { size } = await file.getFile();
  if (size !== bytes.length) throw new Error(`${size} of ${bytes.length} bytes arrived.`);
}

/** Enough for the header of a backup; a longer first line is none of ours. */
const firstLineBytes = 1024 * 1024;

export async function firstLineOf(file: CopyFile): Promise<string> {
  const content = await file.getFile();
  const [line = ''] = (await content.slice(0, firstLineBytes).text()).split('\n');
  return line;
}

/** The names that browsers give to a permission that was taken back in the middle. */
export const isNotAllowed = (error: unknown) =>
  error instanceof Error && ['NotAllowedError', 'SecurityError'].includes(error.name);
