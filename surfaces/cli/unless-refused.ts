/** A file that a computation can do without. */
import { DiskFault } from './disk/fault.ts';
import { printError } from './say.ts';

/** What `read` gives; where the disk refuses that it is said, with `then`, what follows from it, and `instead` is given. */
export async function unlessRefused<Read, Instead>(
  read: () => Promise<Read>,
  instead: Instead,
  then = '',
): Promise<Read | Instead> {
  try {
    return await read();
  } catch (error) {
    if (!(error instanceof DiskFault)) throw error;
    printError(`warning: ${error.message}${then === '' ? '' : ` ${then}`}`);
    return instead;
  }
}
