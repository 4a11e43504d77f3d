/** One file that a command is asked for, never over another. */
import { writeFile } from 'node:fs/promises';
import { writing } from './fault.ts';

export const writeNew = (path: string, content: string | Uint8Array): Promise<void> =>
  writing(path, () => writeFile(path, content, { flag: 'wx' }));
