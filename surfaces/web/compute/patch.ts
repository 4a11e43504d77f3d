/**
 * The difference between two states of plain data, so that only what changed goes between page and worker: copying all
 * of a long campaign for every edit would hold the page up. What did not change stays the very same object, which is
 * also how a screen knows what it need not draw again.
 */

export type Patch =
  | { kind: 'same' }
  | { kind: 'whole'; value: unknown }
  /** Members of an object, or places of a list of that length, that changed. */
  | { kind: 'parts'; length: number | null; parts: [string | number, Patch][] };

const SAME: Patch = { kind: 'same' };

/** How to get from `before` to `after`: plain objects, lists, maps, typed arrays and values. */
export function difference(before: unknown, after: unknown): Patch {
  if (Object.is(before, after)) return SAME;
  if (Array.isArray(before) && Array.isArray(after)) return ofLists(before as unknown[], after as unknown[]);
  if (before instanceof Map && after instanceof Map)
    return isSameMap(before, after) ? SAME : { kind: 'whole', value: after };
  if (ArrayBuffer.isView(before) && ArrayBuffer.isView(after)) {
    return isSameRun(before, after) ? SAME : { kind: 'whole', value: after };
  }
  if (isPlain(before) && isPlain(after)) return ofObjects(before, after);
  return { kind: 'whole', value: after };
}

function ofLists(before: readonly unknown[], after: readonly unknown[]): Patch {
  const parts: [number, Patch][] = [];
  for (let i = 0; i < after.length; i++) {
    const part: Patch =
      i < before.length ? difference(before[i], after[i]) : { kind: 'whole', value: after[i] };
    if (part.kind !== 'same') parts.push([i, part]);
  }
  if (parts.length === 0 && before.length === after.length) return SAME;
  return { kind: 'parts', length: after.length, parts };
}

function ofObjects(before: Record<string, unknown>, after: Record<string, unknown>): Patch {
  const keys = Object.keys(after);
  const old = Object.keys(before);
  // The order of members is kept too: it is the order in which results are written.
  if (keys.length !== old.length || keys.some((key, i) => key !== old[i]))
    return { kind: 'whole', value: after };
  const parts: [string, Patch][] = [];
  for (const key of keys) {
    const part = difference(before[key], after[key]);
    if (part.kind !== 'same') parts.push([key, part]);
  }
  return parts.length === 0 ? SAME : { kind: 'parts', length: null, parts };
}

/** `after`, from `before` and their difference; `before` stays as it is. */
export function patched(before: unknown, patch: Patch): unknown {
  if (patch.kind === 'same') return before;
  if (patch.kind === 'whole') return patch.value;
  if (patch.length !== null) {
    const list = (before as unknown[]).slice(0, patch.length);
    for (const [i, part] of patch.parts) list[i as number] = patched(list[i as number], part);
    return list;
  }
  const object = { ...(before as Record<string, unknown>) };
  for (const [key, part] of patch.parts) object[key] = patched(object[key], part);
  return object;
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function isSameMap(before: ReadonlyMap<unknown, unknown>, after: ReadonlyMap<unknown, unknown>): boolean {
  if (before.size !== after.size) return false;
  const old = before.entries();
  for (const [key, value] of after) {
    const [oldKey, oldValue] = old.next().value!;
    if (!Object.is(key, oldKey) || !Object.is(value, oldValue)) return false;
  }
  return true;
}

function isSameRun(before: ArrayBufferView, after: ArrayBufferView): boolean {
  if (before.constructor !== after.constructor || before.byteLength !== after.byteLength) return false;
  const a = new Uint8Array(before.buffer, before.byteOffset, before.byteLength);
  const b = new Uint8Array(after.buffer, after.byteOffset, after.byteLength);
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
