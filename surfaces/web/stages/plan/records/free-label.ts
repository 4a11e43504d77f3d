/** "Permit", "Permit 2" …: the first that no row has. */
export function freeLabel(label: string, taken: readonly string[]): string {
  let free = label;
  for (let count = 2; taken.includes(free); count++) free = `${label} ${count}`;
  return free;
}
