/**
 * Headings of the tables as names of columns. For other databases than SQLite the standard advises lower-case letters,
 * digits and underscores, a letter first (OGC 12-128r18, note of clause 1). The heading itself is kept as the title.
 */

/** Long headings come from what people type; no source, room for every one of ours. */
const LONGEST = 100;

/** A name for each heading, none twice nor among `taken`; a second "a_b" is "a_b_2". */
export function columnNames(headings: readonly string[], taken: readonly string[]): string[] {
  const used = new Set(taken);
  return headings.map((heading) => {
    const plain = plainName(heading);
    let name = plain;
    for (let n = 2; used.has(name); n++) name = `${plain}_${n}`;
    used.add(name);
    return name;
  });
}

function plainName(heading: string): string {
  const plain = heading
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^_|_$/g, '')
    .slice(0, LONGEST);
  return /^[a-z]/.test(plain) ? plain : `column_${plain}`;
}
