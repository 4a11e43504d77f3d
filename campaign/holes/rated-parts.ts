/**
 * The parts that carry the load, each with what is marked on it: as entered part by part (`rated_gear`), or as the
 * settings of older campaigns have it for several together. A part that no mark was read of is named, never assumed.
 */
import type { PullingGear } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import { type RatedLoad, ratingWords, readRating } from '@stillstand/science/rig';

export interface RatedPart {
  part: string;
  /** Where the load runs through it. */
  on: RatedLoad['on'];
  /** Null where no mark was read, or where none can be made of it. */
  rated_kn: number | null;
  /** "2 t, 19.6 kN (2.00 t)": as marked and as used; empty where not read. */
  says: string;
  /** What is unclear about the mark: for a competent person to decide. */
  doubt: string | null;
}

/** What is asked for by name, and what each carries. */
export const USUAL_PARTS: readonly { part: string; on: RatedLoad['on'] }[] = [
  { part: 'rope', on: 'line' },
  { part: 'winch', on: 'line' },
  { part: 'sheave block', on: 'block' },
  { part: 'hook', on: 'hook' },
  { part: 'shackle', on: 'hook' },
  { part: 'mast or tripod', on: 'head' },
  { part: 'anchor', on: 'head' },
];

/** By the first of these words in a part's label; the crown block is at the head, with all the lines on it. */
const CARRIES: readonly (readonly [RegExp, RatedLoad['on'], usual: string])[] = [
  [/crown/i, 'head', 'mast or tripod'],
  [/\b(?:mast|tripod|derrick|frame|gin)/i, 'head', 'mast or tripod'],
  [/\banchor/i, 'head', 'anchor'],
  [/\b(?:sheave|block|pulley)/i, 'block', 'sheave block'],
  [/\b(?:shackle|sling|clamp|swivel|eye)/i, 'hook', 'shackle'],
  [/\bhook/i, 'hook', 'hook'],
  [/\bwinch/i, 'line', 'winch'],
  [/\b(?:rope|line|wire|cable)/i, 'line', 'rope'],
];

/** What a setting of several parts together stands for. */
const TOGETHER = [
  { part: 'line', on: 'line', setting: 'rated_line_kn', of: ['rope', 'winch'] },
  { part: 'hook and shackle', on: 'hook', setting: 'rated_hook_kn', of: ['hook', 'shackle'] },
  { part: 'tripod or mast', on: 'head', setting: 'rated_head_kn', of: ['mast or tripod', 'anchor'] },
] as const;

/** Where the load runs through a part of this label; one that is not known is compared with the largest load there is. */
const carriedBy = (label: string): RatedLoad['on'] =>
  CARRIES.find(([word]) => word.test(label))?.[1] ?? 'head';

/** The usual part that a label names; null where it is another. */
const usualOf = (label: string): string | null => CARRIES.find(([word]) => word.test(label))?.[2] ?? null;

/** Parts with a mark first, as entered; then the usual ones that no mark was read of. */
export function ratedParts(rows: readonly Row<'rated_gear'>[], gear: PullingGear): RatedPart[] {
  const entered = rows.map(partOf);
  const together = TOGETHER.flatMap(({ part, on, setting }): RatedPart[] => {
    const rated_kn = gear[setting];
    return rated_kn === null ? [] : [{ part, on, rated_kn, says: ratingWords(rated_kn), doubt: null }];
  });
  const named = new Set([
    ...rows.map(({ part }) => usualOf(part)),
    ...TOGETHER.flatMap(({ setting, of }) => (gear[setting] === null ? [] : of)),
  ]);
  const unread = USUAL_PARTS.filter(({ part }) => !named.has(part)).map(notRead);
  return [...entered, ...together, ...unread];
}

/** The same gear with these marks in place of what was entered of those parts. */
export function withMarks(
  rows: readonly Row<'rated_gear'>[],
  gear: PullingGear,
  marks: readonly { part: string; marking: string }[],
): RatedPart[] {
  const given = new Set(marks.map(({ part }) => part));
  const others = rows.filter(({ part }) => !given.has(usualOf(part) ?? part));
  const settings = { ...gear };
  for (const { setting, of } of TOGETHER) if (of.some((part) => given.has(part))) settings[setting] = null;
  const own = marks.map((mark) => ({ ...mark, row_id: '', rated_load_kn: null, note: null }));
  return ratedParts([...others, ...own], settings);
}

const notRead = ({ part, on }: (typeof USUAL_PARTS)[number]): RatedPart => ({
  part,
  on,
  rated_kn: null,
  says: '',
  doubt: null,
});

function partOf({ part, rated_load_kn, marking }: Row<'rated_gear'>): RatedPart {
  const on = carriedBy(part);
  const marked = (marking ?? '').trim();
  const read = marked === '' ? null : readRating(marked);
  if (rated_load_kn === null || rated_load_kn <= 0) {
    const rated_kn = read?.kn ?? null;
    const says = rated_kn === null ? marked : `${marked}, ${ratingWords(rated_kn)}`;
    return { part, on, rated_kn, says, doubt: read?.doubt ?? null };
  }
  // the smaller of the two, where the marking says less than what was typed
  const differs = read?.kn != null && Math.abs(read.kn - rated_load_kn) > 0.03 * rated_load_kn;
  const rated_kn = differs ? Math.min(read.kn!, rated_load_kn) : rated_load_kn;
  return {
    part,
    on,
    rated_kn,
    says: `${marked === '' ? '' : `${marked}, `}${ratingWords(rated_kn)}`,
    doubt: differs ? 'its marking and the load entered differ; the smaller is used' : (read?.doubt ?? null),
  };
}
