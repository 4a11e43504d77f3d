/** A campaign's folder with the history that lies next to its tables. */
import { HISTORY_PATH, historyTooLarge, MOST_HISTORY_BYTES } from '@stillstand/campaign/history';
import { type Opened, openFiles } from '@stillstand/campaign/versions';
import { readNamed, sizeBelow } from './disk/read.ts';

/** `files` and `notFiles` are those of the folder at `path` (`readCampaignFolder`). A history that is too large is named. */
export async function openWithHistory(
  path: string,
  files: Map<string, Uint8Array>,
  notFiles: ReadonlyMap<string, string>,
): Promise<Opened> {
  const history = await readNamed(path, HISTORY_PATH, MOST_HISTORY_BYTES);
  if (history instanceof Uint8Array) files.set(HISTORY_PATH, history);
  const opened = openFiles(files, notFiles);
  if (history !== 'too-large') return opened;
  const size = (await sizeBelow(path, HISTORY_PATH)) ?? 0;
  return { ...opened, problems: [...opened.problems, historyTooLarge(size)] };
}
