/** Contacts that are one through several holes, in the order in which a hole would meet them. */
import type { HoleBelow, TiedBases, UnitBelow } from './holes.ts';

/** A contact: the base of one unit in each hole that has it. */
export interface Horizon {
  /** By hole. */
  units: ReadonlyMap<string, UnitBelow>;
}

const keyOf = (hole: string, unit: string): string => JSON.stringify([hole, unit]);

/**
 * From the uppermost down. Bases that are tied to no other are contacts of one hole. Of two bases of one hole that would
 * be one contact by way of others the second stays by itself; ties that cross leave the order to the elevations.
 */
export function horizonsOf(holes: readonly HoleBelow[], ties: readonly TiedBases[]): Horizon[] {
  const groups = new Map<string, Map<string, UnitBelow>>();
  for (const { hole, units } of holes)
    for (const unit of units) if (unit.isBaseSeen) groups.set(keyOf(hole, unit.id), new Map([[hole, unit]]));
  for (const { hole_a, unit_a, hole_b, unit_b } of ties) {
    const [a, b] = [groups.get(keyOf(hole_a, unit_a)), groups.get(keyOf(hole_b, unit_b))];
    if (a === undefined || b === undefined || a === b) continue;
    if ([...b.keys()].some((hole) => a.has(hole))) continue;
    for (const [hole, unit] of b) {
      a.set(hole, unit);
      groups.set(keyOf(hole, unit.id), a);
    }
  }
  const waiting = new Set(groups.values());
  const above = new Map<Map<string, UnitBelow>, Set<Map<string, UnitBelow>>>();
  for (const group of waiting) above.set(group, new Set());
  for (const { hole, units } of holes) {
    const met = units.flatMap(({ id }) => groups.get(keyOf(hole, id)) ?? []);
    for (let i = 1; i < met.length; i++) if (met[i] !== met[i - 1]) above.get(met[i]!)!.add(met[i - 1]!);
  }
  const height = (group: Map<string, UnitBelow>): number =>
    [...group.values()].reduce((sum, { base_m }) => sum + base_m.value, 0) / group.size;
  const ordered: Horizon[] = [];
  while (waiting.size > 0) {
    const free = [...waiting].filter((group) => ![...above.get(group)!].some((each) => waiting.has(each)));
    const next = (free.length > 0 ? free : [...waiting]).reduce((best, each) =>
      height(each) > height(best) ? each : best,
    );
    waiting.delete(next);
    ordered.push({ units: next });
  }
  return ordered;
}
