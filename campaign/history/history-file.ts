/**
 * The file next to the tables of a saved campaign that holds how the campaign came about. It may come from anybody: what
 * it claims is counted before Yjs is given it, as Yjs believes every number in it.
 */
import { type CampaignDocument, HISTORY_PATH } from '@stillstand/campaign/document';
import { isKnownLayout, isSound } from '@stillstand/campaign/replica';
import * as Y from 'yjs';

const MIB = 1_048_576;
/** A season of 10,000 readings and 3,000 edits takes 4 MiB. */
export const MOST_HISTORY_BYTES = 64 * MIB;
/** Changes, whatever the file claims; each that says something takes two bytes or more. */
const MOST_CHANGES = 2_000_000;
const mostChanges = (bytes: number): number => Math.min(MOST_CHANGES, 10_000 + bytes);
/** One for each time that a campaign was opened on a device and edited. */
const MOST_CLIENTS = 100_000;

/** The whole Yjs document in update format v2. One document gives the same bytes every time. */
export const historyBytes = (doc: Y.Doc): Uint8Array => Y.encodeStateAsUpdateV2(doc);

/**
 * The document as it is saved: with its history behind its tables. One that was opened from tables and never touched has
 * none: whoever opens the same tables has the same Yjs document.
 */
export function withHistory(document: CampaignDocument, doc: Y.Doc): CampaignDocument {
  const isUntouched =
    doc.store.clients.size === 1 && document.source?.package === document.package && isAsRead(document);
  return isUntouched
    ? document
    : { ...document, files: new Map([[HISTORY_PATH, historyBytes(doc)], ...document.files]) };
}

const isAsRead = ({ tables }: CampaignDocument): boolean =>
  [...tables.values()].every(({ rows, source }) => source?.rows === rows);

/** The document of a history; `too large`, `newer` and `damaged` where there is none. Never throws. */
export function docOfHistory(bytes: Uint8Array): Y.Doc | 'too large' | 'damaged' | 'newer' {
  if (bytes.length > MOST_HISTORY_BYTES) return 'too large';
  const doc = new Y.Doc();
  try {
    const Decoder = counted(mostChanges(bytes.length));
    if (!isFlat(Y.decodeUpdateV2(bytes, Decoder).structs)) return 'damaged';
    Y.applyUpdateV2(doc, bytes, null, Decoder);
    if (doc.store.pendingStructs !== null || doc.store.pendingDs !== null) return 'damaged';
    if (!isKnownLayout(doc)) return 'newer';
    return isSound(doc) ? doc : 'damaged';
  } catch {
    return 'damaged';
  }
}

/** Reads so many changes and no more: a few bytes can claim any number of them. */
const counted = (most: number): typeof Y.UpdateDecoderV2 =>
  class extends Y.UpdateDecoderV2 {
    #changes = 0;
    #clients = 0;
    override readInfo(): number {
      if (++this.#changes > most) throw new RangeError(`more than ${most} changes`);
      return super.readInfo();
    }
    override readClient(): number {
      if (++this.#clients > MOST_CLIENTS) throw new RangeError(`more than ${MOST_CLIENTS} writers`);
      return super.readClient();
    }
  };

/**
 * Whether it holds rows in lists and nothing below them, as every campaign does: Yjs takes a time that is the square of the
 * depth. A row stands behind another row, or first in a list.
 */
function isFlat(structs: ReturnType<typeof Y.decodeUpdateV2>['structs']): boolean {
  const rows = structs.filter(
    (struct): struct is Y.Item => struct instanceof Y.Item && struct.content instanceof Y.ContentType,
  );
  const places = new Set(rows.map(({ id }) => placeOf(id)));
  const isRow = (id: Y.ID | null): boolean => id === null || places.has(placeOf(id));
  return rows.every(
    ({ content, parent, origin, rightOrigin }) =>
      (content as Y.ContentType).type instanceof Y.Map &&
      (parent === null || typeof parent === 'string') &&
      isRow(origin) &&
      isRow(rightOrigin),
  );
}

const placeOf = ({ client, clock }: Y.ID): string => `${client} ${clock}`;
