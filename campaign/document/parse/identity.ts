/**
 * Who a row is. A row that came without `row_id` gets one from its table and label, or from what it says where it has
 * no label: never from its place, so that sorting a sheet changes nothing. Derived ids are the first 80 bits of a
 * SHA-256, in hexadecimal behind "d-", and are made under the names of version 1: a new name changes no identity.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { firstNameOf, firstWord } from '../old-names.ts';
import { type Draft, FRAMES, labelKey, type RowFault, whatItSays } from './draft.ts';

const DERIVED_BYTES = 10;

/**
 * Gives every row its `row_id` and returns the rows without exact copies. A row that repeats another in every cell is
 * used once, with a warning; rows that share an id but differ are each given a derived one.
 */
export function identify(drafts: readonly Draft[]): Draft[] {
  const written = new Map<string, WrittenId>();
  const labelled = new Map<string, number>();
  for (const draft of drafts) {
    const id = draft.values.row_id;
    if (typeof id === 'string') {
      const first = written.get(id);
      if (first === undefined) written.set(id, { draft, rows: 1, isShared: false });
      else {
        first.rows++;
        if (draft.table !== first.draft.table || whatItSays(draft) !== whatItSays(first.draft)) {
          first.isShared = true;
        }
      }
    }
    const key = identityKey(draft);
    if (key !== null) labelled.set(key, (labelled.get(key) ?? 0) + 1);
  }

  const kept: Draft[] = [];
  const seen = new Map<string, Draft>();
  const derived = new Set<string>();
  for (const draft of drafts) {
    const id = typeof draft.values.row_id === 'string' ? draft.values.row_id : null;
    const holder = id === null ? null : written.get(id)!;
    const key = id === null ? identityKey(draft) : null;
    const isAlone = holder === null ? key !== null && labelled.get(key) === 1 : holder.rows === 1;
    const said = isAlone ? '' : whatItSays(draft);
    if (!isAlone) {
      const copyKey = `${draft.table}\u0002${id ?? ''}\u0002${said}`;
      const first = seen.get(copyKey);
      if (first !== undefined) {
        first.faults.push(rowTwice());
        continue;
      }
      seen.set(copyKey, draft);
    }
    kept.push(draft);

    if (id !== null && !holder!.isShared) draft.row_id = id;
    else {
      const wanted = derivedId(draft.table, isAlone ? key! : said);
      draft.row_id = wanted;
      // Only where a derived id was copied into another row.
      for (let n = 2; derived.has(draft.row_id) || written.has(draft.row_id); n++)
        draft.row_id = `${wanted}-${n}`;
      derived.add(draft.row_id);
      if (holder !== null) draft.faults.push(idTwice(id!, holder.rows));
    }
    draft.values.row_id = draft.row_id;
  }
  return kept;
}

interface WrittenId {
  draft: Draft;
  rows: number;
  /** Rows that say different things have it. */
  isShared: boolean;
}

const rowTwice = (): RowFault => ({
  severity: 'warning',
  column: null,
  code: 'row-twice',
  found: 'two rows that say the same in everything',
  expected: 'each row once',
  fix: 'It is used once. Delete one of them, or give them different numbers or notes if both are meant.',
});

const idTwice = (id: string, rows: number): RowFault => ({
  severity: 'warning',
  column: 'row_id',
  code: 'row-id-twice',
  found: `${id} in ${rows} rows that differ`,
  expected: 'an identity of its own for each row',
  fix: 'Clear the identity of the copied rows. Until then each is used under one made from what it says.',
});

/** Table and label of a row that is no amendment; null where it has none. */
function identityKey(draft: Draft): string | null {
  const { label, scope } = FRAMES.get(draft.table)!;
  if (label === null || typeof draft.values.amends === 'string') return null;
  const named = draft.values[label];
  const first = typeof named === 'string' ? firstWord(draft.table, label, named) : named;
  const key = labelKey(scope, label, { ...draft.values, [label]: first ?? null });
  return key === null ? null : `${firstNameOf(draft.table)}\u0002${key}`;
}

function derivedId(table: string, text: string): string {
  return `d-${bytesToHex(sha256(utf8ToBytes(`${firstNameOf(table)}\u0002${text}`)).subarray(0, DERIVED_BYTES))}`;
}
