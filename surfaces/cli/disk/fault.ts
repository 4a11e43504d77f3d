/** What the file system refused, in one sentence: the path, what failed, what to do. */

/** Thrown by everything here that reads or writes; `main` prints its message and ends with 2. */
export class DiskFault extends Error {
  constructor(path: string, doing: 'read' | 'written', cause: unknown) {
    const code = codeOf(cause);
    const [why, advice] = WHY[code ?? ''] ?? [cause instanceof Error ? cause.message : String(cause), CHECK];
    super(`${path} cannot be ${doing}: ${why}${code === null ? '' : ` (${code})`}. ${advice}`, { cause });
  }
}

const CHECK = 'Check the disk and the path, then try again.';
const RIGHTS = 'Change its permissions, or name another place.';
const ROOM = 'Free some space, or name a folder on another disk.';
const IN_USE = 'Close the programs that have it open, then try again.';
const SHORTER = 'Shorten the names, or name a folder higher up.';
const FILES = 'Close other programs, or raise the limit of open files (ulimit -n), then try again.';

/** Codes of POSIX (IEEE Std 1003.1, errno.h), as Node hands them on; Windows errors come as the nearest of them. */
const WHY: Readonly<Record<string, readonly [why: string, advice: string]>> = {
  ENOENT: ['there is no such file or folder', 'Check the path.'],
  EACCES: ['this user has no permission', RIGHTS],
  EPERM: ['this user has no permission', RIGHTS],
  EROFS: ['the disk is read-only', 'Name a folder on another disk.'],
  ENOSPC: ['the disk is full', ROOM],
  EDQUOT: ['this user’s share of the disk is used up', ROOM],
  EFBIG: ['the file is larger than the disk allows', ROOM],
  ENOTDIR: ['a part of the path is a file, not a folder', 'Check the path.'],
  EISDIR: ['it is a folder, not a file', 'Name a file.'],
  ELOOP: ['its symbolic links lead in a circle', 'Name the folder itself.'],
  ENAMETOOLONG: ['the name is longer than the disk allows', SHORTER],
  EEXIST: ['something of that name exists', 'Name another place.'],
  ENOTEMPTY: ['the folder is not empty', 'Another program wrote there at the same time: try again.'],
  EMFILE: ['too many files are open', FILES],
  ENFILE: ['too many files are open', FILES],
  EBUSY: ['it is in use', IN_USE],
  ETXTBSY: ['it is in use', IN_USE],
  EXDEV: ['it cannot be moved on this disk', 'Name a folder inside it, or another place.'],
  EIO: ['the disk does not answer', CHECK],
  ENXIO: ['there is no such device', 'Check the path.'],
  ENODEV: ['there is no such device', 'Check the path.'],
  ETIMEDOUT: ['the disk does not answer', CHECK],
  ESTALE: ['the network disk has gone', CHECK],
  EINVAL: ['the disk does not take such a name or request', 'Check the path.'],
};

/** The file system's code of an error, such as ENOENT; null where it is no error of the file system. */
export function codeOf(error: unknown): string | null {
  const { code, syscall } = (error ?? {}) as { code?: unknown; syscall?: unknown };
  return typeof code === 'string' && /^E[A-Z0-9]+$/.test(code) && typeof syscall === 'string' ? code : null;
}

/** Whatever the file system refuses in `work` becomes a fault that names `path`. */
export const reading = <T>(path: string, work: () => Promise<T>): Promise<T> => named(path, 'read', work);
export const writing = <T>(path: string, work: () => Promise<T>): Promise<T> => named(path, 'written', work);

async function named<T>(path: string, doing: 'read' | 'written', work: () => Promise<T>): Promise<T> {
  if (path.includes('\0')) throw new DiskFault(path, doing, new Error('no name may hold a zero byte'));
  try {
    return await work();
  } catch (error) {
    throw codeOf(error) === null ? error : new DiskFault(path, doing, error);
  }
}

/** For `catch`: null where nothing stands at a path, else the error again. */
export function nullIfAbsent(error: unknown): null {
  if (codeOf(error) === 'ENOENT') return null;
  throw error;
}
