/**
 * Laboratory values by hole and quantity, in one unit each: what figures and tables draw against depth. Values are
 * converted where their units allow it; the measurements keep what was typed.
 */
import { type LogPoint, type LogResult, traceId } from '@stillstand/campaign/results';
import {
  convertedUnit,
  type LaboratoryUnit,
  laboratoryUnit,
  quantityCalled,
} from '@stillstand/science/laboratory';
import type { Complain } from '../complaint.ts';
import type { MeasurementRow, Placed } from './at-one-place.ts';
import { doubtfulValues } from './doubtful-values.ts';
import { placeIn, type WeighedValue } from './weights.ts';

/** A value that belongs into a log, in the unit it came with. */
interface Value {
  hole: string;
  property: string;
  unit: string | null;
  point: LogPoint;
}

/** `taken`: measurements that are classes or weights. */
export function logsOf(
  measurements: readonly Placed[],
  weighed: readonly WeighedValue[],
  taken: ReadonlySet<string>,
  complain: Complain<MeasurementRow>,
): LogResult[] {
  const own = measurements.filter(({ row }) => !taken.has(row.row_id));
  doubtfulValues(own, complain);
  const values: Value[] = [
    ...own.flatMap((placed): Value[] => {
      const at = placeIn(placed.result);
      if (at === null) return [];
      const { row_id, property, unit, value, sigma, qualifier } = placed.result;
      const { hole, ...where } = at;
      const trace = traceId.measurement(row_id);
      const point: LogPoint = { trace, ...where, value, sigma, qualifier, computed: 'measured' };
      return [{ hole, property, unit, point }];
    }),
    ...weighed,
  ];
  const byQuantity = Map.groupBy(values, ({ hole, property }) => `${hole}\u0000${quantityCalled(property)}`);
  for (const of of byQuantity.values()) mixedUnits(of, own, complain);
  return [...byQuantity.values()].flatMap((of) => [...byUnit(of).values()].map(logOf));
}

/** One group a kind of unit; units that are not known by their own name, and none. */
const byUnit = (of: readonly Value[]): Map<string, Value[]> =>
  Map.groupBy(of, ({ unit }) => (unit === null ? '' : (laboratoryUnit(unit)?.kind ?? `?${unit}`)));

function logOf(of: readonly Value[]): LogResult {
  const unit = most(of.map((value) => value.unit));
  const to = unit === null ? null : laboratoryUnit(unit);
  return {
    hole: of[0]!.hole,
    property: most(of.map(({ property }) => property)),
    unit,
    points: of.map((value) => converted(value, to)).sort((a, b) => a.depth_m.value - b.depth_m.value),
  };
}

function converted({ unit, point }: Value, to: LaboratoryUnit | null): LogPoint {
  const from = unit === null ? null : laboratoryUnit(unit);
  if (from === null || to === null || from.factor === to.factor) return point;
  const number = (value: number | null): number | null =>
    value === null ? null : convertedUnit(value, from, to);
  return { ...point, value: number(point.value), sigma: number(point.sigma) };
}

/** The one there is most of; of as many, the first. */
function most<T>(of: readonly T[]): T {
  const counts = new Map<T, number>();
  for (const each of of) counts.set(each, (counts.get(each) ?? 0) + 1);
  return [...counts].reduce((best, each) => (each[1] > best[1] ? each : best))[0];
}

/** Values of one quantity that cannot be put on one scale: each kind has a log of its own, and it is said once. */
function mixedUnits(of: readonly Value[], own: readonly Placed[], complain: Complain<MeasurementRow>): void {
  const groups = [...byUnit(of).values()];
  if (groups.length < 2) return;
  const [usual, ...others] = groups.sort((a, b) => b.length - a.length);
  for (const group of others) {
    const about = own.find(({ row }) =>
      group.some(({ point }) => point.trace === traceId.measurement(row.row_id)),
    );
    if (about === undefined) continue;
    complain(
      about.row,
      'other-unit',
      'unit',
      `${about.row.unit ?? 'no unit'} of ${group.length} of ${of.length} values in ${about.result.hole}`,
      `${usual![0]!.unit ?? 'no unit'}, or a unit that converts to it`,
      'Correct the unit. They are drawn apart until then.',
      'warning',
    );
  }
}
