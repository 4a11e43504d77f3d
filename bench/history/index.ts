/**
 * A season with its history: how large its zip is without photos, and how long it takes to write, to open with its history,
 * to open where a spreadsheet has been at one table, and to make an earlier state. Wanted: a zip below 5 MB.
 */
import { rowIds, writeFiles, writeZip } from '@stillstand/campaign/document';
import { documentAfter, historyBytes, replicaOf, withHistory } from '@stillstand/campaign/history';
import { actsOf, readDocument } from '@stillstand/campaign/replica';
import { openZip } from '@stillstand/campaign/versions';
import { least_ms } from '../least.ts';
import { SEASON, season, take } from './season.ts';

export interface HistoryBench {
  readings: number;
  edits: number;
  acts: number;
  /** Megabytes. */
  zip_mb: number;
  zip_without_history_mb: number;
  history_mb: number;
  /** Milliseconds, the least of the repeats. */
  write_zip_ms: number;
  encode_history_ms: number;
  read_zip_ms: number;
  open_history_ms: number;
  open_edited_outside_ms: number;
  earlier_state_ms: number;
}

const REPEATS = 3;
const megabytes = (bytes: Uint8Array): number => bytes.length / 1e6;

export function benchHistory(): HistoryBench {
  const [doc, ...others] = season();
  for (const from of others) take(from, doc!);
  const document = readDocument(doc!);
  const saved = withHistory(document, doc!);
  const zip = writeZip(saved);
  const opened = openZip(zip);
  const ids = rowIds(opened.document);
  const text = new TextDecoder().decode(writeFiles(document).get('units.csv'));
  const files = new Map(writeFiles(saved)).set(
    'units.csv',
    new TextEncoder().encode(text.replaceAll('sand', 'silt')),
  );
  const edited = openZip(writeZip({ ...saved, package: null, source: null, tables: new Map(), files }));
  const edited_ids = rowIds(edited.document);
  const acts = actsOf(doc!, true).all();
  return {
    ...SEASON,
    acts: acts.length,
    zip_mb: megabytes(zip),
    zip_without_history_mb: megabytes(writeZip(document)),
    history_mb: megabytes(historyBytes(doc!)),
    write_zip_ms: least_ms(() => writeZip(withHistory(readDocument(doc!), doc!)), REPEATS),
    encode_history_ms: least_ms(() => historyBytes(doc!), REPEATS),
    read_zip_ms: least_ms(() => rowIds(openZip(zip).document), REPEATS),
    open_history_ms: least_ms(() => demand('as it is', replicaOf(opened, ids).history), REPEATS),
    open_edited_outside_ms: least_ms(
      () => demand('edited outside', replicaOf(edited, edited_ids).history),
      REPEATS,
    ),
    earlier_state_ms: least_ms(() => documentAfter(doc!, acts[acts.length >> 1]!.id), REPEATS),
  };
}

function demand(wanted: string, found: string): void {
  if (found !== wanted) throw new Error(`the history is ${found}, not ${wanted}`);
}
