/** jsdom has no downloads: what the page hands to the browser is caught at the door. */
import { afterEach, beforeEach, vi } from 'vitest';

export interface Caught {
  name: string;
  blob: Blob;
}

/** For a file or a group of tests: what was saved since the test began, in order. */
export function caughtDownloads(): readonly Caught[] {
  const saved: Caught[] = [];
  beforeEach(() => {
    saved.length = 0;
    let blob: Blob | null = null;
    vi.stubGlobal(
      'URL',
      class extends URL {
        static override createObjectURL(made: Blob) {
          blob = made;
          return 'blob:caught';
        }
        static override revokeObjectURL() {}
      },
    );
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      if (blob) saved.push({ name: this.download, blob });
    });
  });
  afterEach(() => {
    vi.unstubAllGlobals();
  });
  return saved;
}

/** jsdom's Blob has no arrayBuffer() of its own. */
export const bytesOf = (blob: Blob | undefined) =>
  new Promise<Uint8Array>((resolve, reject) => {
    if (blob === undefined) throw new Error('nothing was saved');
    const reader = new FileReader();
    reader.onload = () => {
      if (reader.result instanceof ArrayBuffer) resolve(new Uint8Array(reader.result));
    };
    reader.onerror = () => reject(reader.error);
    reader.readAsArrayBuffer(blob);
  });

export const textOf = async (blob: Blob | undefined) => new TextDecoder().decode(await bytesOf(blob));
