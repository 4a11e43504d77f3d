/** Names of daily copies, which of them a new one may replace, and which are old enough to go. */

/** One copy that this device wrote into the folder, in the order of writing. */
export interface WrittenCopy {
  name: string;
  /** By the clock of this device, ISO 8601. */
  day: string;
  /** When, "14:32". */
  time: string;
  /** How full the campaign was: rows of all tables, and files. */
  rows: number;
  files: number;
}

type Fullness = Pick<WrittenCopy, 'rows' | 'files'>;

/** So many are kept. Common practice, no source: two weeks show a slip that was not seen at once. */
const KEPT = 14;

/** `North-coast-2026-11-30.zip`; a second copy of a day that must not replace the first ends in `-2`. */
const copyName = (campaign: string, day: string, n: number): string =>
  `${campaign}-${day}${n === 1 ? '' : `-${n}`}.zip`;

/**
 * Where today's copy goes: to the name of the day, over an earlier copy only where this device wrote that one from the
 * same campaign and it held no more than this one. `isTaken`: whether the folder has a file of that name.
 */
export async function nameFor(
  campaign: string,
  day: string,
  now: Fullness,
  written: readonly WrittenCopy[],
  isTaken: (name: string) => Promise<boolean>,
): Promise<string> {
  for (let n = 1; ; n++) {
    const name = copyName(campaign, day, n);
    const ours = written.findLast((copy) => copy.name === name);
    if (!(await isTaken(name))) return name;
    if (ours !== undefined && ours.rows <= now.rows && ours.files <= now.files) return name;
  }
}

/**
 * Copies to remove after one was written: all but the last ones in the order of writing, which a wrong clock does not
 * change. Only what this device wrote is ever among them, and never the newest.
 */
export const copiesToRemove = (written: readonly WrittenCopy[]): readonly WrittenCopy[] =>
  written.slice(0, -KEPT);

/** The list with a copy at its end; one of that name before it is the same file. */
export const withCopy = (written: readonly WrittenCopy[], copy: WrittenCopy): WrittenCopy[] => [
  ...written.filter(({ name }) => name !== copy.name),
  copy,
];
