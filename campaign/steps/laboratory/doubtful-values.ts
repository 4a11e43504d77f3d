/** Values that are there twice, and values that cannot be: asked about, and drawn all the same. */
import type { Severity } from '@stillstand/campaign/problems';
import { inQuadrature } from '@stillstand/science/base';
import { laboratoryUnit, quantityCalled } from '@stillstand/science/laboratory';
import type { Complain } from '../complaint.ts';
import { inUnit, type MeasurementRow, type Placed, placeOf, unitOf } from './at-one-place.ts';

interface Doubt {
  of: Placed;
  code: 'measured-twice' | 'impossible-value';
  found: string;
  expected: string;
  fix: string;
  severity: Severity;
}

/** More of one quantity of a hole have one cause, such as a unit, and are said once. */
const MANY = 10;

export function doubtfulValues(own: readonly Placed[], complain: Complain<MeasurementRow>): void {
  const doubts = [...twice(own), ...own.flatMap((placed) => impossible(placed) ?? [])];
  const alike = Map.groupBy(doubts, ({ of: { row, result }, code }) =>
    JSON.stringify([code, result.hole ?? row.sample, quantityCalled(row.property)]),
  );
  for (const of of alike.values()) {
    const [first] = of;
    if (of.length > MANY) {
      const { row, result } = first!.of;
      const where = result.hole === null ? '' : ` in ${result.hole}`;
      const found = `${of.length} values of ${row.property}${where}, the first ${first!.found}`;
      complain(row, first!.code, 'value', found, first!.expected, first!.fix, worst(of));
    } else
      for (const { of: placed, code, found, expected, fix, severity } of of)
        complain(placed.row, code, 'value', found, expected, fix, severity);
  }
}

const worst = (of: readonly Doubt[]): Severity =>
  of.some(({ severity }) => severity === 'warning') ? 'warning' : 'note';

/** Differences beyond this many sigma are no repetition. */
const APART = 3;

/** One quantity of one sample, batch and method more than once. Limits next to a value are common, and no double. */
function twice(own: readonly Placed[]): Doubt[] {
  const measured = own.filter(({ row }) => row.value !== null && row.qualifier === null);
  const alike = Map.groupBy(measured, (placed) => {
    const { property, batch, method, unit } = placed.row;
    // Values that cannot be converted into each other are not of one quantity.
    return JSON.stringify([
      placeOf(placed),
      quantityCalled(property),
      unitOf(placed)?.kind ?? unit,
      batch,
      method,
    ]);
  });
  return [...alike.values()].flatMap(([first, ...others]) =>
    others.map((other): Doubt => {
      const [from, to] = [unitOf(first!), unitOf(other)];
      const before = from === null || to === null ? first!.row : inUnit(first!, from, to);
      const apart = Math.abs(other.row.value! - before.value!);
      const sigma = inQuadrature(other.row.sigma ?? 0, before.sigma ?? 0);
      const isApart = sigma > 0 && apart > APART * sigma;
      const expected = 'one value of a quantity in a batch';
      if (apart === 0)
        return {
          of: other,
          code: 'measured-twice',
          found: `${other.row.value} twice`,
          expected,
          fix: 'Remove one if it is a copy. Both are drawn until then.',
          severity: 'warning',
        };
      return {
        of: other,
        code: 'measured-twice',
        found: `${other.row.value} and ${before.value}${isApart ? `, ${Math.round(apart / sigma)} sigma apart` : ''}`,
        expected,
        fix: 'Correct one, or name the batch or method of each where it was measured again. Both are drawn.',
        severity: isApart ? 'warning' : 'note',
      };
    }),
  );
}

/** Values that cannot be, in the first unit of their kind. Densities as of quartz and of a wet sediment of it. */
const LIMITS: Readonly<Record<string, { low: number; high: number; unit: string }>> = {
  'part of mass': { low: 0, high: 100, unit: '%' },
  'part of wet mass': { low: 0, high: 100, unit: '% of wet mass' },
  'part of volume': { low: 0, high: 100, unit: '% of volume' },
  density: { low: 0, high: 2.9, unit: 'g/cm³' },
  mass: { low: 0, high: Infinity, unit: 'g' },
  volume: { low: 0, high: Infinity, unit: 'cm³' },
  length: { low: 0, high: Infinity, unit: 'mm' },
};
/** Water may be more than the dry mass it is stated of; above ten times as much it is asked about. */
const WATER = { low: 0, high: 1000, unit: '%' };

function impossible(placed: Placed): Doubt | null {
  const unit = unitOf(placed);
  if (unit === null || placed.row.value === null) return null;
  const isWater = quantityCalled(placed.row.property) === 'water content' && unit.kind === 'part of mass';
  const limits = isWater ? WATER : LIMITS[unit.kind];
  if (limits === undefined) return null;
  const { value, sigma } = inUnit(placed, unit, laboratoryUnit(limits.unit)!);
  // An error may reach below nothing, and above all of it.
  const slack = 2 * (sigma ?? 0);
  if (value! >= limits.low - slack && value! <= limits.high + slack) return null;
  return {
    of: placed,
    code: 'impossible-value',
    found: `${placed.row.value} ${placed.row.unit}`,
    expected: limits.high === Infinity ? '0 or more' : `0 to ${limits.high} ${limits.unit}`,
    fix: 'Correct the value or its unit. It is drawn as it is until then.',
    severity: 'warning',
  };
}
