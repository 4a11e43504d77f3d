/** A decision written into a mapping, at the place that the decision names. */
import { isOfActivity } from './activity-decisions.ts';
import { lettersOf, placeOf } from './columns.ts';
import type { Mapping } from './mapping.ts';
import { readMapping } from './read-mapping.ts';

/**
 * The mapping with one thing decided: `fixed.method` (or `method`) = tube, `columns.D.unit` = cm, `columns.D.to` = depth,
 * `column.rsl_m` = the heading of the column that has it, `sigma` = 2 for all activities,
 * `words.kind.SLIP` = index, `decimal_comma` = true, `leave_out` = 12, 13. A fault says what was expected.
 */
export function decided(
  mapping: Mapping,
  where: string,
  word: string,
): { mapping: Mapping } | { fault: string } {
  const copy = structuredClone(mapping) as unknown as Record<string, unknown>;
  const [first = '', ...path] = where.split('.');
  if (first === 'columns' && path.length === 2) {
    const found = mapping.columns.findIndex(({ column }) => column === path[0]);
    if (found === -1) {
      const last = lettersOf(Math.max(0, ...mapping.columns.map(({ column }) => placeOf(column))));
      return { fault: `${where}: no column ${path[0]}; they are A to ${last}` };
    }
    const column = (copy['columns'] as Record<string, unknown>[])[found]!;
    column[path[1]!] = path[1] === 'sigma' ? Number(word) : word === '' ? null : word;
  } else if (where === 'sigma') {
    for (const [at, { sigma }] of mapping.columns.entries())
      if (sigma === undefined && isOfActivity(mapping.columns[at]!))
        (copy['columns'] as Record<string, unknown>[])[at]!['sigma'] = Number(word);
  } else if (first === 'column' && path.length === 1) {
    const found = mapping.columns.findIndex(({ heading, to }) => heading === word && to === null);
    if (found === -1) return { fault: `${where}: no unused column is headed “${word}”` };
    (copy['columns'] as Record<string, unknown>[])[found]!['to'] = path[0];
  } else if (first === 'words' && path.length >= 2) {
    const [to, ...theirs] = path;
    const words = copy['words'] as Record<string, Record<string, string>>;
    words[to!] = { ...words[to!], [theirs.join('.')]: word };
  } else if (first === 'leave_out')
    copy['leave_out'] = word
      .split(/[\s,]+/)
      .filter(Boolean)
      .map(Number);
  else if (/^(?:decimal_comma|fill_down|keep_rest)$/.test(where))
    copy[where] = word === 'true' ? true : word === 'false' ? false : word;
  else if (where === 'same_depth') copy[where] = word;
  else {
    const to = first === 'fixed' ? path.join('.') : where;
    copy['fixed'] = { ...mapping.fixed, [to]: word };
  }
  return readMapping(JSON.stringify(copy));
}
