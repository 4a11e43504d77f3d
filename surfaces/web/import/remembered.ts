/** Mappings that somebody corrected, by the headings they fit: kept on the device, so that a series of tables is decided once. */
import { type Mapping, readMapping } from '@stillstand/campaign/import';

const KEY = 'stillstand.import-mappings';
/** The oldest are forgotten beyond it. */
const MOST = 60;

function kept(): Record<string, unknown> {
  try {
    const parsed: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return typeof parsed === 'object' && parsed !== null ? (parsed as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}

/** What was decided for a table headed like this; null where nothing was, or where it cannot be read any more. */
export function remembered(key: string): Mapping | null {
  const found = kept()[key];
  if (found === undefined) return null;
  const read = readMapping(JSON.stringify(found));
  return 'mapping' in read ? read.mapping : null;
}

/** A device that is full forgets it: the table is added all the same. */
export function remember(key: string, mapping: Mapping): void {
  const { [key]: _, ...others } = kept();
  const all = Object.entries({ ...others, [key]: mapping }).slice(-MOST);
  try {
    localStorage.setItem(KEY, JSON.stringify(Object.fromEntries(all)));
  } catch {
    // not kept
  }
}
