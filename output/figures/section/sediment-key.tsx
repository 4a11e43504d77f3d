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
  words: string;
  x: number;
  row: number;
}

/** Each with its name, or with other words. */
export function keyRows(
  sediments: readonly Sediment[],
  width: number,
  wordsOf = ({ name }: Sediment): string => name,
): KeyItem[] {
  const entries = sediments.map((sediment) => ({ sediment, words: wordsOf(sediment) }));
  const room = ({ words }: { words: string }): number => 26 + Math.min(width - 26, textWidth(words));
  return inRows(entries, width, GAP, room).map(({ item, x, row }) => ({ ...item, x, row }));
}

export const keyHeight = (items: readonly KeyItem[]): number =>
  items.length === 0 ? 0 : (items.at(-1)!.row + 1) * ROW;

export function SedimentKey({
  items,
  y,
  width,
  id = 'section-legend',
}: {
  items: readonly KeyItem[];
  y: number;
  width: number;
  /** Unique in the drawing. */
  id?: string;
}) {
  const ink = useInk();
  return items.map(({ sediment, words, x, row }, i) => {
    const top = y + row * ROW;
    return (
      <g key={sediment.name}>
        <Pattern
          sediment={sediment}
          at={{ x1: x, y1: top, x2: x + 22, y2: top + 9 }}
          id={`${id}-${i + 1}`}
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
