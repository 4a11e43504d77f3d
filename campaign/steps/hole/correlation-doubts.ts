/** What cannot be so among correlations that people made: decided both ways, crossing, of ages that cannot be one. */
import type { UnitResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { thousands } from '@stillstand/science/base';
import { yearsApart } from '@stillstand/science/correlate';
import type { Complain } from '../complaint.ts';
import { ageOf, type PlacedDate } from './compared-column.ts';
import type { FoundCorrelation } from './found-correlation.ts';

type CorrelationRow = Row<'correlations'>;

/** Depths of both contacts with the hole of the lower label first, so that a row and its mirror compare. */
function inOrder({ hole_a, a, hole_b, b }: FoundCorrelation) {
  const ends = [
    { hole: hole_a, unit: a },
    { hole: hole_b, unit: b },
  ];
  if (hole_a > hole_b) ends.reverse();
  const [one, other] = ends as [(typeof ends)[0], (typeof ends)[0]];
  return { between: JSON.stringify([one.hole, other.hole]), one: one.unit, other: other.unit };
}

const named = ({ hole_a, a, hole_b, b }: FoundCorrelation): string =>
  `${hole_a} ${a.unit} to ${hole_b} ${b.unit}`;

/** One pair of contacts both accepted and refused. */
export function complainOfDecisions(
  decided: readonly FoundCorrelation[],
  complain: Complain<CorrelationRow>,
): void {
  const pairs = Map.groupBy(decided, (each) => {
    const { between, one, other } = inOrder(each);
    return JSON.stringify([between, one.row_id, other.row_id]);
  });
  for (const rows of pairs.values()) {
    const refused = rows.find(({ isAccepted }) => !isAccepted);
    if (refused === undefined || !rows.some(({ isAccepted }) => isAccepted)) continue;
    complain(
      refused.row,
      'correlation-both-ways',
      'status',
      'refused here, accepted in another row',
      'one decision for two contacts',
      'Delete one of the two rows. Until then the correlation counts as accepted.',
      'warning',
    );
  }
}

/** Of two correlations between the same holes one lies higher in one hole and lower in the other. */
export function complainOfCrossing(
  accepted: readonly FoundCorrelation[],
  complain: Complain<CorrelationRow>,
): void {
  const byHoles = Map.groupBy(accepted, (each) => inOrder(each).between);
  for (const rows of byHoles.values())
    rows.forEach((later, i) => {
      const crossed = rows.slice(0, i).filter((earlier) => {
        const [p, q] = [inOrder(earlier), inOrder(later)];
        const depth = (unit: UnitResult): number => unit.depth_bottom_m.value;
        return (depth(p.one) - depth(q.one)) * (depth(p.other) - depth(q.other)) < 0;
      });
      if (crossed.length === 0) return;
      complain(
        later.row,
        'correlations-cross',
        'unit_b',
        `${named(later)} crosses ${named(crossed[0]!)}${crossed.length > 1 ? ` and ${crossed.length - 1} more` : ''}`,
        'contacts in the same order in both holes',
        'Correct or delete one of them. Until then both are drawn and nothing is proposed between the two holes.',
        'warning',
      );
    });
}

/** Dates above one contact are older than dates below the other. */
export function complainOfAges(
  accepted: readonly FoundCorrelation[],
  dates: ReadonlyMap<string, readonly PlacedDate[]>,
  years_per_m: number,
  complain: Complain<CorrelationRow>,
): void {
  for (const { row, hole_a, a, hole_b, b } of accepted) {
    const contact = (hole: string, { depth_bottom_m, elevation_bottom_m }: UnitResult) => ({
      age: ageOf(depth_bottom_m.value, dates.get(hole) ?? []),
      elevation_m: elevation_bottom_m?.value ?? null,
    });
    const [contactA, contactB] = [contact(hole_a, a), contact(hole_b, b)];
    const apart_yr = yearsApart(contactA, contactB, years_per_m);
    if (apart_yr === 0) continue;
    const [ageA, ageB] = [contactA.age, contactB.age];
    const isAOlder = (ageA?.youngest_cal_bp ?? -Infinity) > (ageB?.oldest_cal_bp ?? Infinity);
    const [older, younger] = isAOlder ? [ageA, ageB] : [ageB, ageA];
    complain(
      row,
      'correlation-ages',
      'unit_b',
      `${isAOlder ? hole_a : hole_b} before ${years(older!.youngest_cal_bp!)}, ${isAOlder ? hole_b : hole_a} after ${years(younger!.oldest_cal_bp!)} cal BP`,
      'contacts that can be of one age',
      `They are ${years(apart_yr)} years further apart than a contact that climbs may be. Correct or delete the correlation, reject a date that is wrong, or change the setting correlation years per m. It is drawn as it is.`,
      'warning',
    );
  }
}

const years = (cal_bp: number): string => thousands(Math.round(cal_bp));
