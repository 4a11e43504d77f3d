/** A folder that a person picked (File System Access): files are written into it whole, or not at all. */
import { deviceWords } from '../store/index.ts';

/** The part of a FileSystemDirectoryHandle used here; the library of types has it without permissions. */
export interface Folder {
  readonly name: string;
  getFileHandle(name: string, options?: { create?: boolean }): Promise<FileInFolder>;
  removeEntry(name: string): Promise<void>;
  queryPermission?(of: { mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(of: { mode: 'readwrite' }): Promise<PermissionState>;
}

interface FileInFolder {
  getFile(): Promise<{ size: number }>;
  createWritable(): Promise<{
    write(content: Blob): Promise<void>;
    close(): Promise<void>;
    abort(): Promise<void>;
  }>;
}

type Picker = (options: { id: string; mode: 'readwrite' }) => Promise<Folder>;

const picker = (): Picker | undefined => (globalThis as { showDirectoryPicker?: Picker }).showDirectoryPicker;

export const hasFolders = (): boolean => picker() !== undefined;

/** A folder of the person's choice; null where none was chosen. Call it from a press. */
export async function pickFolder(): Promise<Folder | null> {
  try {
    return (await picker()?.({ id: 'daily-copies', mode: 'readwrite' })) ?? null;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}

/** Whether files may be written now; `prompt`: after a press. */
export const mayWrite = async (folder: Folder): Promise<PermissionState> =>
  (await folder.queryPermission?.({ mode: 'readwrite' })) ?? 'granted';

export const askToWrite = async (folder: Folder): Promise<PermissionState> =>
  (await folder.requestPermission?.({ mode: 'readwrite' })) ?? 'granted';

/** Whether there is such a file with something in it: an empty one was left by a page that ended before it could write. */
export async function hasFile(folder: Folder, name: string): Promise<boolean> {
  try {
    const handle = await folder.getFileHandle(name);
    return (await handle.getFile()).size > 0;
  } catch (error) {
    if ((error as Error).name === 'NotFoundError') return false;
    throw error;
  }
}

/** Writes beside the file of that name and puts it in its place at the end; rejects, and then the earlier file is as it was. */
export async function writeWhole(folder: Folder, name: string, content: Blob): Promise<void> {
  const isNew = !(await hasFile(folder, name));
  try {
    const handle = await folder.getFileHandle(name, { create: true });
    const file = await handle.createWritable();
    try {
      await file.write(content);
      await file.close();
    } catch (error) {
      await file.abort().catch(() => undefined);
      throw error;
    }
    const { size } = await handle.getFile();
    if (size !== content.size) throw new Error(`${size} of ${content.size} bytes were written`);
  } catch (error) {
    if (isNew) await folder.removeEntry(name).catch(() => undefined);
    throw error;
  }
}

/** Why nothing was written, and what to do. */
export function folderWords(error: unknown, folder: string): string {
  switch ((error as Error | null)?.name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return `the browser may no longer write to the folder “${folder}”. Press Allow folder`;
    case 'NotFoundError':
      return `the folder “${folder}” is no longer there. Connect its drive, or choose another folder`;
    case 'QuotaExceededError':
      return `the disk with the folder “${folder}” is full. Free up storage there, or choose another folder`;
    case 'NoModificationAllowedError':
    case 'InvalidModificationError':
      return `the folder “${folder}” is read only, or its file is open in another program. Close that program`;
    default:
      return `${deviceWords(error)}. Write the copy again, or choose another folder`;
  }
}
