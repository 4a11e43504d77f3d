/** What is read from whole tables and asked for at every edit: read again when one of them is another. */

/** `compute`, which must depend on nothing but the tables that `tablesOf` names; the last answer is kept. */
export function remembered<C, T>(
  tablesOf: (campaign: C) => readonly object[],
  compute: (campaign: C) => T,
): (campaign: C) => T {
  let kept: { tables: readonly object[]; value: T } | null = null;
  return (campaign) => {
    const tables = tablesOf(campaign);
    if (kept === null || kept.tables.some((table, i) => table !== tables[i]))
      kept = { tables, value: compute(campaign) };
    return kept.value;
  };
}
