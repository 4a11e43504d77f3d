/** A file that a command is to make besides what it says: named at once where it cannot be, before minutes of computing. */
import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { WrongUse } from '../command.ts';
import { nullIfAbsent, reading } from './fault.ts';
import { NoTarget } from './write.ts';

/**
 * `option` is the one that names the file, `ending` with its dot, `undone` what was not done then; `also`: files made with it.
 * @throws WrongUse for another ending, NoTarget for a file that is there or a folder that is not
 */
export async function mayBeMade(
  file: string,
  { option, ending, undone, also = [] }: { option: string; ending: string; undone: string; also?: string[] },
): Promise<void> {
  if (!file.toLowerCase().endsWith(ending))
    throw new WrongUse(
      `--${option}: found “${file}”, expected the name of a new file that ends in ${ending}`,
    );
  for (const each of [file, ...also])
    if (existsSync(each)) throw new NoTarget(`${each} is there already: name a new file, ${undone}`);
  const folder = dirname(resolve(file));
  const found = await reading(folder, () => stat(folder).catch(nullIfAbsent));
  if (found === null || !found.isDirectory())
    throw new NoTarget(`${file}: there is no folder ${dirname(file)}; make it first`);
}
