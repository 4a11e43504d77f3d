/** The patterns of a line through time with the environments they were laid down in, in rows under it. */
import type { EnvironmentResult, Results, SectionResult } from '@stillstand/campaign/results';
import {
  box,
  inRows,
  LINE,
  Pattern,
  type Sediment,
  sedimentOfUnit,
  shortened,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';

export interface KeyEntry {
  sediment: Sediment;
  words: string;
  x: number;
  row: number;
}

const ROW = 13;
const GAP = 14;

/** Sediments of the holes that are drawn, coarse before fine, each with its environments. */
export function keyEntries(
  results: Results,
  environments: readonly EnvironmentResult[],
  section: SectionResult | null,
  width: number,
): KeyEntry[] {
  const holes = new Set([
    ...environments.map(({ hole }) => hole),
    ...(section?.bodies.flatMap(({ units }) => units.map(({ hole }) => hole)) ?? []),
  ]);
  const found = new Map<string, { sediment: Sediment; environments: Set<string> }>();
  for (const { hole, units } of results.holes) {
    if (!holes.has(hole)) continue;
    for (const unit of units) {
      const sediment = sedimentOfUnit(unit);
      const entry = found.get(sediment.name) ?? { sediment, environments: new Set<string>() };
      if (unit.environment !== null) entry.environments.add(unit.environment);
      found.set(sediment.name, entry);
    }
  }
  const entries = [...found.values()]
    .sort((a, b) => b.sediment.grain - a.sediment.grain || (a.sediment.name < b.sediment.name ? -1 : 1))
    .map(({ sediment, environments: own }) => ({
      sediment,
      words: own.size === 0 ? sediment.name : `${sediment.name}: ${[...own].join(', ')}`,
    }));
  const room = ({ words }: { words: string }): number => 26 + Math.min(width - 26, textWidth(words));
  return inRows(entries, width, GAP, room).map(({ item, x, row }) => ({ ...item, x, row }));
}

export const keyHeight = (entries: readonly KeyEntry[]): number =>
  entries.length === 0 ? 0 : (entries.at(-1)!.row + 1) * ROW;

export function EnvironmentsKey({
  entries,
  y,
  width,
  id,
}: {
  entries: readonly KeyEntry[];
  y: number;
  width: number;
  id: string;
}) {
  const ink = useInk();
  return entries.map(({ sediment, words, x, row }, i) => {
    const top = y + row * ROW;
    return (
      <g key={sediment.name}>
        <Pattern
          sediment={sediment}
          at={{ x1: x, y1: top, x2: x + 22, y2: top + 9 }}
          id={`${id}-key-${i + 1}`}
          seed={900 + i}
        />
        <path d={box(x, top, x + 22, top + 9)} fill="none" stroke={ink.ink} strokeWidth={LINE.fine} />
        <Text x={x + 26} y={top + 7}>
          {shortened(words, width - 26)}
        </Text>
      </g>
    );
  });
}
