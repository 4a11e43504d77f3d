/** Section lines as asked for: the holes each goes through, in their order. */
import type { Campaign } from '@stillstand/campaign/document';
import type { HoleResult } from '@stillstand/campaign/results';
import { listed, type Row } from '@stillstand/campaign/tables';
import type { Complain } from '../complaint.ts';

export type LineRow = Row<'section_lines'>;

export interface AskedLine {
  /** Null: no line is asked for, and this one goes through all holes. */
  row: LineRow | null;
  /** Those it names, as far as they can be drawn. */
  holes: readonly HoleResult[];
  /** Others this near are set on it too, m; null: none. */
  within_m: number | null;
}

/** Without rows one line through all holes that have a levelled ground, lost ones with a replacement left out. A line that keeps no hole is left out. */
export function askedLines(
  campaign: Campaign,
  holes: readonly HoleResult[],
  complain: Complain<LineRow>,
): AskedLine[] {
  const rows = campaign.rows.section_lines;
  if (rows.length === 0) {
    // A lost hole stands a step from the one that replaces it, and would part it from its neighbours.
    const replaced = new Set(holes.filter(isLevelled).map(({ replaces }) => replaces));
    return [
      {
        row: null,
        holes: holes.filter((hole) => isLevelled(hole) && !replaced.has(hole.hole)),
        within_m: null,
      },
    ];
  }
  const known = new Map(holes.map((hole) => [hole.hole, hole]));
  return rows.flatMap((row): AskedLine[] => {
    const named = listed(row.holes);
    const unique = [...new Set(named)];
    const say = (code: string, found: readonly string[], expected: string, fix: string): void => {
      if (found.length > 0) complain(row, code, 'holes', found.join(', '), expected, fix, 'warning');
    };
    say(
      'section-hole-unknown',
      unique.filter((label) => !known.has(label)),
      'labels of holes, separated by ;',
      'Correct the label, or remove it from the line. Until then the line goes through the others.',
    );
    say(
      'section-hole-twice',
      named.filter((label, i) => known.has(label) && named.indexOf(label) !== i),
      'each hole once',
      'Remove the second one. Until then only the first counts.',
    );
    const found = unique.flatMap((label) => known.get(label) ?? []);
    say(
      'section-hole-not-levelled',
      found.filter((hole) => !isLevelled(hole)).map(({ hole }) => hole),
      'holes whose ground is levelled',
      'Give the reference of the hole its elevation, and the ground below it. Until then it is not on the section.',
    );
    const drawn = found.filter(isLevelled);
    if (drawn.length === 1)
      say(
        'section-line-of-one-hole',
        drawn.map(({ hole }) => hole),
        'at least two holes',
        'Add a hole to the line. Until then this one is drawn alone.',
      );
    if (drawn.length === 0 && named.length === 0)
      say(
        'section-line-empty',
        [row.holes],
        'labels of at least two holes, separated by ;',
        'Name its holes.',
      );
    return drawn.length === 0 ? [] : [{ row, holes: drawn, within_m: row.within_m }];
  });
}

export const isLevelled = ({ ground_elevation_m }: HoleResult): boolean => ground_elevation_m !== null;
