/** Contacts with a name, in every hole they are found in: what correlations tie together, and what they call alike. */
import type { HoleResult, HorizonResult } from '@stillstand/campaign/results';
import { asNamed, sameName } from '@stillstand/campaign/tables';
import { unions } from '@stillstand/science/base';
import type { FoundCorrelation } from './found-correlation.ts';

/** A contact of a hole: the base of a unit. */
interface Contact {
  hole: string;
  row_id: string;
}

export interface NamedContacts {
  horizon: HorizonResult;
  /** Names of its correlations that differ, the first its own. */
  names: readonly string[];
  /** Holes in which it has two contacts. */
  twice_in: readonly string[];
  /** Its correlations, in the order of their table. */
  rows: readonly FoundCorrelation[];
}

const keyOf = ({ hole, row_id }: Contact): string => JSON.stringify([hole, row_id]);

export function horizons(
  correlations: readonly FoundCorrelation[],
  holes: readonly HoleResult[],
): NamedContacts[] {
  // Contacts tied together, and those of one name, are one horizon.
  const { root, join } = unions();
  for (const { hole_a, a, hole_b, b, horizon } of correlations) {
    const contact = keyOf({ hole: hole_a, row_id: a.row_id });
    join(contact, keyOf({ hole: hole_b, row_id: b.row_id }));
    if (sameName(horizon) !== '') join(`name ${sameName(horizon)}`, contact);
  }
  const groups = Map.groupBy(correlations, ({ hole_a, a }) =>
    root(keyOf({ hole: hole_a, row_id: a.row_id })),
  );
  return [...groups.values()].flatMap((rows): NamedContacts[] => {
    const named = rows.filter(({ horizon }) => sameName(horizon) !== '');
    if (named.length === 0) return [];
    const names = [...Map.groupBy(named, ({ horizon }) => sameName(horizon)).values()].map(([first]) =>
      asNamed(first!.horizon),
    );
    const keys = new Set(
      rows.flatMap(({ hole_a, a, hole_b, b }) => [
        keyOf({ hole: hole_a, row_id: a.row_id }),
        keyOf({ hole: hole_b, row_id: b.row_id }),
      ]),
    );
    const contacts = holes.flatMap(({ hole, units }) =>
      units
        .filter(({ row_id }) => keys.has(keyOf({ hole, row_id })))
        .map(({ row_id, unit, depth_bottom_m, elevation_bottom_m }) => ({
          hole,
          unit,
          unit_row_id: row_id,
          depth_m: depth_bottom_m,
          elevation_m: elevation_bottom_m,
        })),
    );
    const count = Map.groupBy(contacts, ({ hole }) => hole);
    return [
      {
        horizon: { horizon: names[0]!, contacts },
        names,
        twice_in: [...count].filter(([, of]) => of.length > 1).map(([hole]) => hole),
        rows: named,
      },
    ];
  });
}
