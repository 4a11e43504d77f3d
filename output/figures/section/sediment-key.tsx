/** The patterns of a section, coarse before fine, in rows under it. */
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
import type { Stand } from './layout.ts';

const ROW = 13;
/** Between two entries of a row, points. */
const GAP = 14;

export const sedimentsOf = (stands: readonly Stand[]): Sediment[] =>
  eachOnce(stands.flatMap(({ hole }) => hole.units.map(sedimentOfUnit)));

/** Each sediment once, coarse before fine. */
export function eachOnce(sediments: readonly Sediment[]): Sediment[] {
  const byName = new Map(sediments.map((sediment) => [sediment.name, sediment]));
  return [...byName.values()].sort((a, b) => b.grain - a.grain || (a.name < b.name ? -1 : 1));
}

export interface KeyItem {
  sediment: Sediment;
  x: number;
  row: number;
}

export function keyRows(sediments: readonly Sediment[], width: number): KeyItem[] {
  const room = ({ name }: Sediment): number => 26 + Math.min(width - 26, textWidth(name));
  return inRows(sediments, width, GAP, room).map(({ item, x, row }) => ({ sediment: item, x, row }));
}

export const keyHeight = (items: readonly KeyItem[]): number =>
  items.length === 0 ? 0 : (items.at(-1)!.row + 1) * ROW;

export function SedimentKey({ items, y, width }: { items: readonly KeyItem[]; y: number; width: number }) {
  const ink = useInk();
  return items.map((item, i) => {
    const top = y + item.row * ROW;
    return (
      <g key={item.sediment.name}>
        <Pattern
          sediment={item.sediment}
          at={{ x1: item.x, y1: top, x2: item.x + 22, y2: top + 9 }}
          id={`section-legend-${i + 1}`}
          seed={900 + i}
        />
        <path
          d={box(item.x, top, item.x + 22, top + 9)}
          fill="none"
          stroke={ink.ink}
          strokeWidth={LINE.fine}
        />
        <Text x={item.x + 26} y={top + 7}>
          {shortened(item.sediment.name, width - 26)}
        </Text>
      </g>
    );
  });
}
