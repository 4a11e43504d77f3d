/** The patterns of a line through time with the environments they were laid down in. */
import type { EnvironmentResult, Results, SectionResult } from '@stillstand/campaign/results';
import { sedimentOfUnit } from '@stillstand/output/drawing';
import { eachOnce, type KeyItem, keyRows } from '../section/sediment-key.tsx';

/** Sediments of the holes that are drawn, each with its environments. */
export function keyEntries(
  results: Results,
  environments: readonly EnvironmentResult[],
  section: SectionResult | null,
  width: number,
): KeyItem[] {
  const holes = new Set([
    ...environments.map(({ hole }) => hole),
    ...(section?.bodies.flatMap(({ units }) => units.map(({ hole }) => hole)) ?? []),
  ]);
  const units = results.holes.filter(({ hole }) => holes.has(hole)).flatMap((hole) => hole.units);
  const laidIn = new Map<string, Set<string>>();
  for (const unit of units) {
    if (unit.environment === null) continue;
    const { name } = sedimentOfUnit(unit);
    laidIn.set(name, (laidIn.get(name) ?? new Set()).add(unit.environment));
  }
  return keyRows(eachOnce(units.map(sedimentOfUnit)), width, ({ name }) => {
    const own = laidIn.get(name);
    return own === undefined ? name : `${name}: ${[...own].join(', ')}`;
  });
}
