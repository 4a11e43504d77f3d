/** Plain tables handed to `section`: correlations, the ground along the line, and how contacts run between holes. */
import { schemas } from '@stillstand/campaign/tables';
import type { Ending, ProfilePoint, SectionBoundary, SectionTie } from '@stillstand/science/correlate';
import { type PlainRow, type PlainTable, readPlainTable } from './plain-table.ts';

const METRES = { min: -1e5, max: 1e5 };

/** A unit by hole and label, as `drawnColumns` names it. */
export const unitId = (hole: string, label: string): string => JSON.stringify([hole, label]);

export async function readTies(path: string): Promise<{ ties: SectionTie[]; table: PlainTable }> {
  const table = await readPlainTable(path, ['hole_a', 'unit_a', 'hole_b', 'unit_b']);
  const words = schemas.correlations.columns.confidence.choices;
  const ties = table.rows.flatMap((row): SectionTie[] => {
    const [hole_a, unit_a, hole_b, unit_b] = ['hole_a', 'unit_a', 'hole_b', 'unit_b'].map((name) =>
      row.text(name),
    ) as [string, string, string, string];
    const confidence = chosen(row, 'confidence', words);
    if (confidence === undefined) return [];
    return [
      {
        row_id: String(row.line),
        hole_a,
        unit_a: unitId(hole_a, unit_a),
        hole_b,
        unit_b: unitId(hole_b, unit_b),
        confidence,
        horizon: row.text('horizon') || null,
      },
    ];
  });
  return { ties, table };
}

export async function readGround(path: string): Promise<{ profile: ProfilePoint[]; table: PlainTable }> {
  const table = await readPlainTable(path, ['distance_m', 'elevation_m']);
  const profile = table.rows.flatMap((row): ProfilePoint[] => {
    const [along_m, elevation_m] = [row.needed('distance_m', METRES), row.needed('elevation_m', METRES)];
    return along_m === null || elevation_m === null ? [] : [{ along_m, elevation_m }];
  });
  return { profile, table };
}

export async function readEnds(
  path: string,
  ties: readonly SectionTie[],
): Promise<{ boundaries: SectionBoundary[]; table: PlainTable }> {
  const table = await readPlainTable(path, ['horizon', 'hole_a']);
  const { ending: endings } = schemas.section_boundaries.columns;
  const names = new Set(ties.map(({ horizon }) => horizon));
  const boundaries = table.rows.flatMap((row): SectionBoundary[] => {
    const before = table.problems.length;
    const ending = chosen(row, 'ending', endings.choices);
    const at_fraction = row.number('at_fraction', { min: 0, max: 1 });
    const lift_m = row.number('lift_m', { min: -100, max: 100 });
    if (ending === undefined || table.problems.length > before) return [];
    const [horizon, hole_a] = [row.text('horizon'), row.text('hole_a')];
    return [
      {
        row_id: String(row.line),
        horizon: names.has(horizon) ? horizon : unitId(hole_a, horizon),
        hole_a,
        hole_b: row.text('hole_b') || null,
        ending: ending ?? ('continuous' satisfies Ending),
        at_fraction,
        lift_m,
      },
    ];
  });
  return { boundaries, table };
}

/** Null for an empty cell, undefined (with a problem) for none of the words. */
function chosen<Word extends string>(
  row: PlainRow,
  column: string,
  words: readonly Word[],
): Word | null | undefined {
  const typed = row.text(column).toLowerCase();
  if (typed === '') return null;
  const word = words.find((each) => each === typed);
  if (word === undefined)
    row.problem(column, row.text(column), words.join(', '), 'Correct it; the row is left out.');
  return word;
}
