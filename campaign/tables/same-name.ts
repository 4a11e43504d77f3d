/** Names that differ in blanks and capitals alone are one. */

/** As it is written, blanks apart. */
export const asNamed = (name: string | null): string => (name ?? '').trim().replace(/\s+/g, ' ');
/** As it is told from others. */
export const sameName = (name: string | null): string => asNamed(name).toLowerCase();
