/**
 * Where two values first differ, "results.points[3].rsl_m: 1 and 2"; null where they are the same to the last bit. A list
 * of all differences of two whole computations takes more memory than a machine has.
 */
export function firstDifference(a: unknown, b: unknown, at = ''): string | null {
  if (Object.is(a, b)) return null;
  const differ = `${at}: ${shown(a)} and ${shown(b)}`;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return differ;
  if (Object.getPrototypeOf(a) !== Object.getPrototypeOf(b)) return differ;
  if (a instanceof Map && b instanceof Map) return firstDifference([...a], [...b], `${at} (map)`);
  if (a instanceof Set && b instanceof Set) return firstDifference([...a], [...b], `${at} (set)`);
  const [ours, theirs] = [Object.keys(a), Object.keys(b)];
  if (ours.length !== theirs.length)
    return `${at}: ${ours.length} and ${theirs.length} of ${[...ours, ...theirs].slice(0, 3).join(', ')}`;
  for (const key of ours) {
    if (!Object.hasOwn(b, key)) return `${at}.${key}: only in the first`;
    const found = firstDifference(
      (a as Record<string, unknown>)[key],
      (b as Record<string, unknown>)[key],
      Array.isArray(a) || ArrayBuffer.isView(a) ? `${at}[${key}]` : `${at}.${key}`,
    );
    if (found !== null) return found;
  }
  return null;
}

const shown = (value: unknown): string =>
  typeof value === 'object' && value !== null
    ? Object.prototype.toString.call(value)
    : String(value).slice(0, 80);
