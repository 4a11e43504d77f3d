/** Paths inside a campaign: relative, with `/`, never leading out of it. */

/** Of a file or folder, in bytes of UTF-8: what common disks take. */
const LONGEST_PART = 255;

/** What is wrong with a path, in words; null where it is safe to write below a campaign folder. */
export function unsafePath(path: string): string | null {
  if (path === '') return 'it is empty';
  if (path.length > 1000) return 'it is longer than 1,000 characters';
  if (path.startsWith('/')) return 'it starts at the root of the disk';
  if (path.includes('\\')) return 'it has a backslash';
  if (/^[a-z]:/i.test(path)) return 'it names a drive';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  if (/[\x00-\x1f\x7f]/.test(path)) return 'it has control characters';
  for (const part of path.split('/')) {
    if (new TextEncoder().encode(part).length > LONGEST_PART)
      return `a part of it has more than ${LONGEST_PART} bytes`;
    if (part === '..') return 'it leads out of the campaign (..)';
    if (part === '.' || part === '') return 'it has an empty part';
  }
  return null;
}
