/** A folder for the second copy, and a logbook that remembers it. */
import type * as z from 'zod/mini';
import type { CopyFolder } from '../../src/store/copyFolder.ts';
import type { LogbookHandle } from '../../src/store/openLogbook.ts';

/** A folder made of functions cannot be cloned into a database: its setting stays in memory. */
export function withSettingsInMemory(handle: LogbookHandle): LogbookHandle {
  const settings = new Map<string, unknown>();
  return {
    ...handle,
    readSetting: async <T>(key: string, schema: z.ZodMiniType<T>) => {
      const read = schema.safeParse(settings.get(key));
      return read.success ? read.data : handle.readSetting(key, schema);
    },
    writeSetting: async (key, value) => void settings.set(key, value),
  };
}

/** A folder with one file, which can be looked into and put out of order. */
export function folderInMemory() {
  const control = { content: new Uint8Array(), trouble: false, permission: 'granted' as PermissionState };
  const folder: CopyFolder = {
    name: 'share',
    queryPermission: async () => control.permission,
    requestPermission: async () => {
      control.permission = 'granted';
      return control.permission;
    },
    getFileHandle: async () => ({
      getFile: async () => new Blob([control.content]),
      createWritable: async () => ({
        write: async (bytes) => {
          if (control.trouble) throw new Error('The share is gone.');
          control.content = bytes;
        },
        close: async () => {},
        abort: async () => {},
      }),
    }),
  };
  return { folder, control };
}
